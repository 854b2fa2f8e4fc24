package org.steamwright.journeys;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Browser;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;

/** The process is killed without warning between two entries; what the page had called saved is there afterwards. */
@ExtendWith(Chromium.class)
class PulledPlugTest {

    private static final int ROUNDS = 3;

    @TempDir
    static Path folder;

    @Test
    void nothing_that_was_called_saved_is_lost(Browser browser) {
        RunningDesk desk = RunningDesk.record(folder);
        try {
            String path;
            try (Visitor visitor = new Visitor(browser, desk)) {
                path = Sheet.begin(visitor, "J-PLUG").path();
            }
            for (int round = 1; round <= ROUNDS; round++) {
                String company = "Sample Service " + round + " (invented)";
                String reason = "yearly, round " + round + " (invented)";
                try (Visitor visitor = new Visitor(browser, desk)) {
                    visitor.at(path + "/identity");
                    Sheet sheet = Sheet.on(visitor.page());
                    sheet.enter("Your company", company).enter("Reason of the visit", reason);
                    desk.pullThePlug();
                    sheet.type("Your company", "typed into a dead page");
                    assertThat(sheet.notSaved()).containsText("Not saved", Sheet.soon());
                }
                desk = RunningDesk.record(folder);
                try (Visitor visitor = new Visitor(browser, desk)) {
                    visitor.at(path + "/identity");
                    Sheet.on(visitor.page()).shows("Your company", company).shows("Reason of the visit", reason);
                }
                assertThat(desk.said()).as("what the desk says at its start").doesNotContain("WARNING");
            }
        } finally {
            desk.close();
        }
    }
}
