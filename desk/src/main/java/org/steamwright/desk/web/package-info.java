/**
 * The server: routes and their rights, what guards them, and how a page is put together.
 *
 * <p>A room lists its routes, each with the roles that may use it; a request meets the guard, the doorkeeper, the right, the
 * token and only then the room. Nothing here knows a room.
 */
@NullMarked
package org.steamwright.desk.web;

import org.jspecify.annotations.NullMarked;
