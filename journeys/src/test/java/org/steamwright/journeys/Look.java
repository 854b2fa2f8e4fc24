package org.steamwright.journeys;

import com.microsoft.playwright.Page;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** What is wrong with a page as it stands in the browser, in words; empty lists are good. */
final class Look {

    /** Presses of the tab key that one field may take: a date has day, month, year and its calendar. */
    private static final int STOPS_OF_A_FIELD = 6;

    /** Presses of the tab key before the page is asked whether it has ended. */
    private static final int STOPS_AT_A_TIME = 8;

    private static final String AXE = axeSource();

    /** All rules, those of target size too; frames there are none. */
    private static final String RUN_AXE = """
            (only) => axe.run(document, {
              resultTypes: ['violations'], iframes: false, preload: false, elementRef: false,
              ...(only.length ? { runOnly: { type: 'rule', values: only } } : { rules: { 'target-size': { enabled: true } } }),
            }).then((result) => result.violations.flatMap((rule) => rule.nodes.map((node) =>
              `${rule.id}: ${node.target.join(' ')}: ${(node.failureSummary || '').replace(/\\s+/g, ' ').slice(0, 240)}`)))
            """;

    private static final String WIDER = """
            () => {
              const room = document.documentElement.clientWidth;
              if (document.documentElement.scrollWidth <= room) return [];
              const wide = [...document.body.querySelectorAll('*')].filter((one) =>
                one.getBoundingClientRect().right > room + 1 && one.checkVisibility());
              const named = (one) => one.tagName.toLowerCase() + (one.className && one.className.baseVal === undefined ? '.' + one.className : '');
              return [`the page is ${document.documentElement.scrollWidth} px wide in a window of ${room} px: `
                + wide.slice(0, 4).map(named).join(', ')];
            }
            """;

    /**
     * A link inside a sentence may be as high as its line; whatever else can be touched counts with its label.
     *
     * @source WCAG 2.2, success criteria 2.5.5 (44 by 44, with the exception 'inline') and 2.5.8
     */
    private static final String SMALLER = """
            (least) => {
              const small = [];
              for (const one of document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"], [role=button]')) {
                if (one.type === 'hidden' || one.disabled || !one.checkVisibility({ visibilityProperty: true, opacityProperty: true })) continue;
                if (one.matches('[role=region], .table, pre') || one.closest('.skip')) continue;
                let { left, top, right, bottom } = one.getBoundingClientRect();
                if (right <= 0 || right - left === 0) continue;
                const sentence = one.parentElement;
                if (one.tagName === 'A' && getComputedStyle(one).display === 'inline'
                  && sentence.textContent.trim().length > one.textContent.trim().length + 3) continue;
                for (const label of one.labels || []) {
                  const box = label.getBoundingClientRect();
                  left = Math.min(left, box.left); top = Math.min(top, box.top);
                  right = Math.max(right, box.right); bottom = Math.max(bottom, box.bottom);
                }
                if (right - left < least - 0.5 || bottom - top < least - 0.5) {
                  small.push(`${one.tagName.toLowerCase()} '${(one.textContent || one.name || '').trim().slice(0, 30)}' is `
                    + `${Math.round(right - left)} by ${Math.round(bottom - top)} px, less than ${least} by ${least}`);
                }
              }
              return small;
            }
            """;

    /**
     * Each stop is looked at when the tab key goes down once more, before it moves the focus on; by then the page has been
     * scrolled to the stop.
     */
    private static final String BEGIN_TABS = """
            (stopsOfAField) => {
              document.activeElement.blur();
              window.getSelection().removeAllRanges();
              window.scrollTo(0, 0);
              window.stopsSeen = new Map();
              window.stops = { isBegun: false, isAtEnd: false, problems: [] };
              window.lookAtStop = () => {
                if (!stops.isBegun || stops.isAtEnd) { stops.isBegun = true; return; }
                const one = document.activeElement;
                const before = one && one !== document.body && one !== document.documentElement ? stopsSeen.get(one) || 0 : stopsOfAField;
                if (before >= stopsOfAField) { stops.isAtEnd = true; return; }
                stopsSeen.set(one, before + 1);
                if (before > 0) return;
                const style = getComputedStyle(one);
                const named = `${one.tagName.toLowerCase()} '${(one.textContent || one.name || one.id || '').trim().slice(0, 30)}'`;
                const box = one.getClientRects()[0];
                if (!one.matches(':focus-visible') || style.outlineStyle === 'none' || parseFloat(style.outlineWidth) < 2) {
                  stops.problems.push(`${named} has the focus and does not show it`);
                }
                if (!box || box.bottom <= 0 || box.top >= innerHeight || box.right <= 0 || box.left >= innerWidth) {
                  stops.problems.push(`${named} has the focus out of sight`);
                } else {
                  const x = Math.min(Math.max(box.left + box.width / 2, 1), innerWidth - 1);
                  const y = Math.min(Math.max(box.top + box.height / 2, 1), innerHeight - 1);
                  const hit = one.matches('[role=region], [role=group]') ? one : document.elementFromPoint(x, y);
                  if (hit && hit !== one && !one.contains(hit) && !hit.contains(one)) stops.problems.push(`${named} has the focus below something else`);
                }
              };
              window.addEventListener('keydown', (event) => { if (event.key === 'Tab') lookAtStop(); }, true);
            }
            """;

    private static final String TABS_AT_END = "() => window.stops.isAtEnd";

    private static final String TAB_PROBLEMS = "() => window.stops.problems";

    private static final String NOT_REACHED = """
            () => [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex]')].filter((one) =>
              one.tabIndex >= 0 && one.type !== 'hidden' && !one.disabled && !one.closest('[inert]')
              && one.checkVisibility({ visibilityProperty: true })
              && !(one.type === 'radio' && [...window.stopsSeen.keys()].some((other) => other.type === 'radio' && other.name === one.name && other.form === one.form))
              && !window.stopsSeen.has(one))
              .map((one) => `the tab key never reaches ${one.tagName.toLowerCase()} '${(one.textContent || one.name || one.id || '').trim().slice(0, 30)}'`)
            """;

    private static final String WIDER_TABLES = """
            () => [...document.querySelectorAll('.stacks')].filter((one) => one.scrollWidth > one.clientWidth + 1)
              .map((one) => `the table '${one.getAttribute('aria-label') || one.textContent.trim().slice(0, 30)}' is ${one.scrollWidth} px wide in a place of ${one.clientWidth} px`)
            """;

    /** Which elements there are for eyes and ears: all that a width can change of what axe reads without measuring. */
    private static final String SHOWN = """
            () => [...document.querySelectorAll('*')].map((one) => {
              const style = getComputedStyle(one);
              return style.display + style.visibility[0];
            }).join()
            """;

    /** The same, with the colours of each element: all that a width can change of what night does to a page. */
    private static final String COLOURED = """
            () => [...document.querySelectorAll('*')].map((one) => {
              const style = getComputedStyle(one);
              return [style.display, style.visibility[0], style.color, style.backgroundColor, style.backgroundImage, style.opacity].join('/');
            }).join()
            """;

    private static final String OPEN = """
            () => {
              const closed = document.querySelectorAll('details:not([open])');
              for (const one of closed) one.open = true;
              return closed.length > 0;
            }
            """;

    /** On paper there is nothing to press and no way to go, the sheet is white, and what does not fit is lost. */
    private static final String ON_PAPER = """
            () => {
              const problems = [];
              const named = (one) => `${one.tagName.toLowerCase()}${one.className && one.className.baseVal === undefined ? '.' + one.className : ''} '${one.textContent.trim().slice(0, 30)}'`;
              const isShown = (one) => one.checkVisibility({ visibilityProperty: true, opacityProperty: true });
              for (const one of document.querySelectorAll('nav, button, .skip, .foot')) {
                if (isShown(one)) problems.push(`${named(one)} is printed`);
              }
              const sheet = getComputedStyle(document.documentElement);
              if (sheet.backgroundColor !== 'rgb(255, 255, 255)' || sheet.color !== 'rgb(0, 0, 0)') {
                problems.push(`the paper is ${sheet.backgroundColor}, the print ${sheet.color}`);
              }
              for (const one of document.querySelectorAll('body *')) {
                const style = getComputedStyle(one);
                if (!isShown(one) || style.overflowX === 'visible' || style.clipPath !== 'none' || one.matches('input, select, textarea, canvas, svg, svg *')) continue;
                if (one.scrollWidth > one.clientWidth + 1) {
                  problems.push(`${named(one)} is cut: ${one.scrollWidth} px of it in a place of ${one.clientWidth} px`);
                }
              }
              return problems;
            }
            """;

    private Look() {}

    /**
     * Violations that axe finds.
     *
     * @param only rules to run; empty for all
     */
    static List<String> axe(Page page, List<String> only) {
        if (!(Boolean) page.evaluate("() => 'axe' in window")) {
            page.evaluate(AXE);
        }
        return strings(page.evaluate(RUN_AXE, only));
    }

    /** The way in which each element of the page is there or hidden. */
    static String shown(Page page) {
        return (String) page.evaluate(SHOWN);
    }

    /** The way in which each element of the page is there or hidden, and its colours. */
    static String coloured(Page page) {
        return (String) page.evaluate(COLOURED);
    }

    /** Opens whatever is folded away; false if nothing was. */
    static boolean unfold(Page page) {
        return (Boolean) page.evaluate(OPEN);
    }

    /** What is wrong on paper, while the page is shown as it would be printed. */
    static List<String> onPaper(Page page) {
        return strings(page.evaluate(ON_PAPER));
    }

    /** Tables whose rows neither fit side by side nor stand one below the other. */
    static List<String> widerTables(Page page) {
        return strings(page.evaluate(WIDER_TABLES));
    }

    /** What makes the page wider than its window. */
    static List<String> wider(Page page) {
        return strings(page.evaluate(WIDER));
    }

    /** What is too small to be touched, in CSS pixels each way. */
    static List<String> smallerThan(int least, Page page) {
        return strings(page.evaluate(SMALLER, least));
    }

    /** Presses the tab key until the page ends: what it never reached, and where the focus could not be seen. */
    static List<String> withTheTabKey(Page page) {
        page.evaluate(BEGIN_TABS, STOPS_OF_A_FIELD);
        do {
            for (int i = 0; i < STOPS_AT_A_TIME; i++) {
                page.keyboard().down("Tab");
            }
        } while (!(Boolean) page.evaluate(TABS_AT_END));
        page.keyboard().up("Tab");
        List<String> problems = new ArrayList<>(strings(page.evaluate(TAB_PROBLEMS)));
        problems.addAll(strings(page.evaluate(NOT_REACHED)));
        return problems;
    }

    private static List<String> strings(Object found) {
        return ((List<?>) found).stream().map(String::valueOf).toList();
    }

    private static String axeSource() {
        try (InputStream in = Look.class.getResourceAsStream("/axe.min.js")) {
            if (in == null) {
                throw new AssertionError("axe-core's library for Playwright holds no axe.min.js");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        }
    }
}
