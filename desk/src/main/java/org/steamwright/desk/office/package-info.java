/**
 * What an office looks at: what is due and where, the register, instruments, trends, measures, non-conformities, and the
 * reviewer's page.
 *
 * <p>Decides how it is put before people. Refuses to compute what is due, covered or nearing a limit: the domain does. Start
 * at {@link org.steamwright.desk.office.OfficeRoutes}.
 */
@NullMarked
package org.steamwright.desk.office;

import org.jspecify.annotations.NullMarked;
