/**
 * The web application: the visit on a laptop or tablet, the office, the clinic's page. It shows and asks; what it shows is
 * computed by the modules below, and what it is told is kept by them.
 */
@NullMarked
package org.steamwright.desk;

import org.jspecify.annotations.NullMarked;
