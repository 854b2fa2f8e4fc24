/**
 * The visit as one path from the name plate to the signature, which can be left and taken up again at any point.
 *
 * <p>Every field is one fact of the draft and is saved at once; a value that can't be read is refused with what was found, what
 * was expected and how to mend it, and stays in its field. Nothing is computed here: what is missing, what follows and what is
 * due comes from the domain. Start at {@link org.steamwright.desk.path.PathRoutes}, which leads to the rooms beside it: a visit is
 * begun in {@code BeginRoutes}, entries of lists in {@code EntryRoutes}, instruments in {@code EquipmentRoutes}, photos in {@code
 * PhotoRoutes}, papers in {@code PaperRoutes}, signatures in {@code SigningRoutes}. {@link org.steamwright.desk.path.Sheets} says
 * which class writes the sheet of which stage.
 */
@NullMarked
package org.steamwright.desk.path;

import org.jspecify.annotations.NullMarked;
