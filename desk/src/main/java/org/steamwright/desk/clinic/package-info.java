/**
 * The clinic's own page: what may be run until when, whether today's load is covered, what to test, what to do when a cycle
 * fails, and every report.
 *
 * <p>Shows one clinic and changes nothing. Refuses to say more than was tested: the coverage of a load comes from the record,
 * and what becomes of patients and loads the clinic decides. Start at {@link org.steamwright.desk.clinic.ClinicRoutes}.
 */
@NullMarked
package org.steamwright.desk.clinic;

import org.jspecify.annotations.NullMarked;
