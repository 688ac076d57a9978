package org.rollwright.store;

import java.lang.classfile.ClassFile;
import java.lang.classfile.CodeBuilder;
import java.lang.classfile.Label;
import java.lang.classfile.instruction.SwitchCase;
import java.lang.constant.ClassDesc;
import java.lang.constant.ConstantDescs;
import java.lang.constant.MethodTypeDesc;
import java.lang.invoke.MethodHandles;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/// Makes records of their parts by plain calls, in a class that is made when it is needed: the same by reflection
/// costs a start as much as all the rest of reading a state.
final class Makers {
    /// Makes a record.
    interface Maker {
        /// @param kind which one, by its place in the list
        /// @param parts as the record declares them
        Object make(int kind, @Nullable Object[] parts);
    }

    private static final ClassDesc OBJECT = ConstantDescs.CD_Object;
    private static final ClassDesc OBJECTS = OBJECT.arrayType();

    private Makers() {}

    /// A maker for records that anyone may make.
    static Maker of(List<Class<?>> records) {
        ClassDesc self = ClassDesc.of(Makers.class.getPackageName(), "Made");
        byte[] made = ClassFile.of()
                .build(
                        self,
                        type -> type.withFlags(ClassFile.ACC_FINAL)
                                .withInterfaceSymbols(
                                        Maker.class.describeConstable().orElseThrow())
                                .withMethodBody(
                                        ConstantDescs.INIT_NAME,
                                        ConstantDescs.MTD_void,
                                        0,
                                        code -> code.aload(0)
                                                .invokespecial(OBJECT, ConstantDescs.INIT_NAME, ConstantDescs.MTD_void)
                                                .return_())
                                .withMethodBody(
                                        "make",
                                        MethodTypeDesc.of(OBJECT, ConstantDescs.CD_int, OBJECTS),
                                        ClassFile.ACC_PUBLIC,
                                        code -> make(code, records)));
        try {
            MethodHandles.Lookup own = MethodHandles.lookup().defineHiddenClass(made, true);
            return (Maker) own.lookupClass().getDeclaredConstructor().newInstance();
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("the records of a state cannot be made", e);
        }
    }

    private static void make(CodeBuilder code, List<Class<?>> records) {
        List<SwitchCase> cases = new ArrayList<>();
        for (int i = 0; i < records.size(); i++) {
            cases.add(SwitchCase.of(i, code.newLabel()));
        }
        Label none = code.newLabel();
        code.iload(1).tableswitch(0, records.size() - 1, none, cases);
        for (int i = 0; i < records.size(); i++) {
            code.labelBinding(cases.get(i).target());
            one(code, records.get(i));
        }
        code.labelBinding(none).aconst_null().areturn();
    }

    private static void one(CodeBuilder code, Class<?> record) {
        ClassDesc self = record.describeConstable().orElseThrow();
        RecordComponent[] parts = record.getRecordComponents();
        code.new_(self).dup();
        for (int i = 0; i < parts.length; i++) {
            code.aload(2).loadConstant(i).aaload();
            Class<?> type = parts[i].getType();
            if (type.isPrimitive()) {
                unbox(code, type);
            } else {
                code.checkcast(type.describeConstable().orElseThrow());
            }
        }
        code.invokespecial(
                        self,
                        ConstantDescs.INIT_NAME,
                        MethodTypeDesc.of(
                                ConstantDescs.CD_void,
                                Arrays.stream(parts)
                                        .map(part -> part.getType()
                                                .describeConstable()
                                                .orElseThrow())
                                        .toArray(ClassDesc[]::new)))
                .areturn();
    }

    private static void unbox(CodeBuilder code, Class<?> type) {
        ClassDesc box = java.lang.invoke.MethodType.methodType(type)
                .wrap()
                .returnType()
                .describeConstable()
                .orElseThrow();
        code.checkcast(box)
                .invokevirtual(
                        box,
                        type.getName() + "Value",
                        MethodTypeDesc.of(type.describeConstable().orElseThrow()));
    }
}
