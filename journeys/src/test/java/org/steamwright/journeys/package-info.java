/**
 * The desk as people use it: each test starts the program as a process of its own and looks at it in a real Chromium.
 *
 * <p>Decides whether the pages can be used: by everybody, at every size, with the keyboard alone, with the plug pulled.
 * Refuses to say whether a verdict is right; that is decided below. Start at {@link org.steamwright.journeys.RunningDesk}
 * and {@link org.steamwright.journeys.Visitor}.
 */
@org.jspecify.annotations.NullMarked
package org.steamwright.journeys;
