/**
 * JSON in the one form that can be hashed and signed.
 *
 * <p>Decides how a value is written so that the same value has the same bytes everywhere: RFC 8785, by a library. Refuses
 * numbers that would lose digits on the way, rather than to sign another number than was typed. Start at {@link
 * org.steamwright.records.json.JsonText}.
 */
@NullMarked
package org.steamwright.records.json;

import org.jspecify.annotations.NullMarked;
