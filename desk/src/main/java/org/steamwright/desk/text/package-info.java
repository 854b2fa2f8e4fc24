/** Words and figures in the reader's language. */
@NullMarked
package org.steamwright.desk.text;

import org.jspecify.annotations.NullMarked;
