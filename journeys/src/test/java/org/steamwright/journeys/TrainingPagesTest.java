package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** The desk of the training: every page of it like those of a real desk, and gone at the end. */
@ExtendWith(Chromium.class)
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class TrainingPagesTest {

    private static final String FAULT = "One point dips below the temperature";

    @TempDir
    static Path folder;

    static RunningDesk desk;
    static Visitor visitor;
    static String training;
    static String visit;

    @BeforeAll
    static void open(Browser browser) {
        desk = RunningDesk.start(folder, "--training", "--record", "record", "--name", "Alex Sample (invented)");
        visitor = new Visitor(browser, desk);
        Page page = visitor.at("/training");
        page.getByLabel("Which fault").selectOption(FAULT);
        press(page, "Begin a training visit");
        training = page.url().substring(desk.origin().length());
        visit = training.replace("/training/", "/visits/");
        press(page, "Take the recordings over");
    }

    @AfterAll
    static void close() {
        if (visitor != null) {
            visitor.close();
        }
        if (desk != null) {
            desk.close();
        }
    }

    private static void press(Page page, String button) {
        Visitor.follow(
                page,
                () -> page.locator("main")
                        .getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName(button))
                        .click());
    }

    /** Pages that only the training has, and one of a visit, which has its banner above what every visit shows. */
    private static List<String> pages() {
        return List.of("/training", training, visit, training + "/answer", "/training/delete");
    }

    /** Pages that differ from those of a real visit by the banner alone. */
    private static List<String> pagesOfAnyVisit() {
        return List.of(visit + "/runs/1", visit + "/runs/1/recordings");
    }

    @TestFactory
    @Order(1)
    Stream<DynamicTest> holds_at_every_size_by_day_and_by_night_and_with_the_keyboard_alone() {
        return pages().stream()
                .map(path -> DynamicTest.dynamicTest(
                        path, () -> Inspection.holds(visitor, Inspection.inEveryWay(visitor, path))));
    }

    @TestFactory
    @Order(1)
    Stream<DynamicTest> what_every_visit_has_holds_below_the_banner() {
        return pagesOfAnyVisit().stream()
                .map(path -> DynamicTest.dynamicTest(path, () -> {
                    Page page = Inspection.at(visitor, path, Inspection.NARROWEST);
                    assertThat(page.locator("section.invented")).containsText("TRAINING");
                    Inspection.holds(visitor, Inspection.asItStands(path, page));
                }));
    }

    @Test
    @Order(2)
    void the_answer_names_what_was_planted() {
        Page page = visitor.at(training + "/answer");
        assertThat(page.locator("main")).containsText(FAULT);
        assertThat(page.locator("main .verdict")).isVisible();
        assertThat(visitor.takeComplaints()).isEmpty();
    }

    @Test
    @Order(3)
    void the_chamber_is_drawn_by_the_sides_of_the_simulated_machine() {
        Page page = visitor.at(visit + "/runs/1/recordings");
        assertThat(page.locator(".plan figure")).hasCount(3);
        assertThat(page.locator(".plan figcaption").first()).containsText("370 mm deep, 250 mm wide");
    }

    @Test
    @Order(4)
    void all_of_it_is_deleted_in_one_act() {
        Page page = visitor.at("/training/delete");
        press(page, "Delete all of it");
        assertThat(page.locator("h1")).hasText("All training is deleted");
        assertThat(folder.resolve("record-training")).doesNotExist();
        // the desk of the training closes itself after that
        desk = null;
    }
}
