package org.rollwright.cli.keeping;

import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.rollwright.catalog.CatalogLoader;
import org.rollwright.catalog.NamedText;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.Json;
import org.rollwright.cli.shell.Open;
import org.rollwright.scope.VarietyBook;
import org.rollwright.store.CatalogTexts;
import org.rollwright.store.Checkup;
import picocli.CommandLine;

/// Looks everything over.
@CommandLine.Command(
        name = "check",
        description = "Look the store, every photograph, the catalogue and the backups over, and say what to do.",
        footer = {
            "",
            "Example: ./run check          ./run check --data /some/folder --json",
            "",
            "Nothing is changed; it may run beside the tool.",
            "Exit status: 0 all is well or only care is asked for, 5 something is damaged or missing."
        })
public final class CheckCommand implements Callable<Integer> {
    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Option(names = "--json", description = "Print JSON.")
    private boolean json;

    @Override
    public Integer call() {
        Path folder = open.folder();
        List<Checkup.Finding> findings =
                new ArrayList<>(Checkup.of(folder, InstantSource.system().instant()));
        findings.addAll(catalogue(folder));
        if (json) {
            System.out.println(Json.of(findings));
        } else {
            findings.forEach(finding -> System.out.println(switch (finding.weight()) {
                        case GOOD -> "  ok    ";
                        case CARE -> "  care  ";
                        case BAD -> "  BAD   ";
                    }
                    + open.advice(finding.what())
                    + (finding.toDo().isBlank() ? "" : "\n        → " + open.advice(finding.toDo()))));
        }
        boolean bad = findings.stream().anyMatch(finding -> finding.weight() == Checkup.Weight.BAD);
        return (bad ? ExitCode.STORE : ExitCode.OK).number();
    }

    private static List<Checkup.Finding> catalogue(Path folder) {
        List<String> problems = new ArrayList<>();
        CatalogTexts.Texts texts = CatalogTexts.read(folder);
        CatalogLoader.Loaded loaded = CatalogLoader.load(texts.files().stream()
                .map(file -> new NamedText(file.name(), file.text()))
                .toList());
        CatalogTexts.Texts varieties = CatalogTexts.varieties(folder);
        texts.problems().forEach(problem -> problems.add(problem.toString()));
        loaded.problems().forEach(problem -> problems.add(problem.toString()));
        varieties.problems().forEach(problem -> problems.add(problem.toString()));
        VarietyBook.load(varieties.files(), loaded.catalog())
                .problems()
                .forEach(problem -> problems.add(problem.toString()));
        return problems.isEmpty()
                ? List.of(new Checkup.Finding(Checkup.Weight.GOOD, "The catalogue's files can all be used.", ""))
                : problems.stream()
                        .distinct()
                        .map(problem -> new Checkup.Finding(
                                Checkup.Weight.CARE, problem, "The file is left out until it is mended."))
                        .toList();
    }
}
