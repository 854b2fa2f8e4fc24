/**
 * The server: routes and their rights, what guards them, and how a page is put together. Rooms list their routes; nothing
 * here knows a room.
 */
@NullMarked
package org.steamwright.desk.web;

import org.jspecify.annotations.NullMarked;
