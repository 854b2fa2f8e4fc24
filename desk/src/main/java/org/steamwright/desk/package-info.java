/**
 * The web application: the visit on a laptop or tablet, the office, the clinic's page.
 *
 * <p>It shows and it asks. What it shows is computed by the modules below it from facts and recordings; what it is told goes
 * into the record before the page says so. This package only starts and puts the rooms together.
 */
@NullMarked
package org.steamwright.desk;

import org.jspecify.annotations.NullMarked;
