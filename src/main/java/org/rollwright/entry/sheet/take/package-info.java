/// Strangers' sheets. Bytes of a file enter; every row of it leaves with what it would become, what must be asked
/// about it and what is left out. Nothing is recorded here and no file is read.
///
/// For a page or a command, four calls are all there is:
///
/// 1. `new Taking(catalog, Lexicon.parse(words))` with the table `catalog/sheets/lexicon.csv`, once.
/// 2. `taking.read(bytes, As.COINS, said)`: a [org.rollwright.entry.sheet.take.Taken], or a sentence why the file
///    cannot be used. `said` are meanings of headings the hunter gave
// ([org.rollwright.entry.sheet.take.Taking#meanings]);
///    [org.rollwright.entry.sheet.take.Taken#tables] tells what every column was read as and why.
/// 3. `taken.with(answers)`: the same sheet with questions answered, as often as there are answers;
///    [org.rollwright.entry.sheet.take.Taken#astray] names answers that answer nothing.
/// 4. `action.TakenSheet.plan(taken, catalog, today)`: the step to record, and the rows that are left, with reasons.
///
/// From bytes to a row: `GridReader` makes cells of bytes (`Formulas` fills in what is not stored), `TableFinder`
/// finds headings, `SheetReader` says what each line is, `CoinReader` and `BoxReader` read the lines that are
/// things, `Duplicates` marks what stands there twice. What is not said in the row itself is marked as inferred;
/// where two readings are left, it is asked.
@NullMarked
package org.rollwright.entry.sheet.take;

import org.jspecify.annotations.NullMarked;
