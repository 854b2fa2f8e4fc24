/**
 * A tablet on the local network, let in by the owner of the laptop.
 *
 * <p>Nothing listens on the network unless the owner starts the desk so. A tablet is let in by a short code that the laptop
 * shows, once and for a few minutes, over an encrypted connection whose fingerprint both screens show. It stays let in until
 * the desk is stopped or the owner shows it out.
 */
@NullMarked
package org.steamwright.desk.tablet;

import org.jspecify.annotations.NullMarked;
