package org.steamwright.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.records.ResultBook.Waiting;
import org.steamwright.records.VisitResult.Figure;
import org.steamwright.records.VisitResult.Line;
import org.steamwright.records.VisitResult.LineStanding;
import org.steamwright.records.verify.Reassessment;
import org.steamwright.records.verify.Verifier;

/** Pages of large registers and results kept beside the visits, on both engines. */
class ResultBookTest {

    private static final Author ALEX = new Author("Alex Example", "office");
    private static final VisitResult.LineRule LAST = (line, family, figures) -> new LineStanding(
            line,
            figures.get(0).serial(),
            family,
            figures.get(figures.size() - 1).value(),
            "2");
    private static final DueRule ON_ITS_DAY = (sterilizer, visits) -> List.of(new DueDate(
            sterilizer.id(),
            LocalDate.parse(sterilizer.text("number")),
            "service",
            "fixed",
            "",
            java.util.Optional.of(LocalDate.parse(sterilizer.text("number")).plusDays(1))));

    @TempDir
    Path folder;

    private static VisitResult result(SubjectId visit, String state, String day, double leak, int exceptions) {
        return new VisitResult(
                visit,
                "made from this",
                state,
                day,
                "pass",
                VisitResult.Reason.NONE,
                true,
                false,
                false,
                OptionalLong.of(exceptions * 10L),
                exceptions,
                state.equals(VisitResult.GONE)
                        ? List.of()
                        : List.of(new Figure("leak-rate", "M-1", "SN-1", "", "AT_MOST", day, 1, leak, 0.13, "unit")));
    }

    private static VisitResult unread(SubjectId visit, String why) {
        return new VisitResult(
                visit,
                "",
                VisitResult.OUT,
                "2026-03-05",
                "",
                new VisitResult.Reason("run 1", why),
                false,
                false,
                false,
                OptionalLong.empty(),
                0,
                List.of());
    }

    @ParameterizedTest
    @EnumSource
    void only_signed_visits_that_await_nothing_count_at_the_first_visit(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), new TestClock())) {
            ResultBook book = records.results();
            Map<String, String> standings = new LinkedHashMap<>();
            standings.put("pass", VisitResult.OUT);
            standings.put("incomplete", VisitResult.OUT);
            standings.put("awaited", VisitResult.OUT);
            standings.put("fail", VisitResult.OPEN);
            for (Map.Entry<String, String> one : standings.entrySet()) {
                SubjectId id = records.newSubject();
                records.append(ALEX, List.of(Change.set(Kind.VISIT, id, "date", "2026-02-05")));
                VisitResult like = result(id, one.getValue(), "2026-02-05", 0.05, 0);
                book.keep(
                        Map.of(
                                book.waiting(1).get(0),
                                new VisitResult(
                                        id,
                                        like.madeFrom(),
                                        like.state(),
                                        like.day(),
                                        one.getKey(),
                                        like.why(),
                                        false,
                                        false,
                                        false,
                                        OptionalLong.empty(),
                                        0,
                                        List.of())),
                        Map.of(),
                        LAST);
            }
            assertThat(book.months(LocalDate.of(2026, 2, 1), LocalDate.of(2026, 2, 28)))
                    .containsExactly(new VisitResult.Month("2026-02", 4, 0, 0, 2, 1));
        }
    }

    @ParameterizedTest
    @EnumSource
    void results_are_kept_counted_and_thrown_away_when_an_entry_concerns_the_visit(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), new TestClock())) {
            List<SubjectId> visits = new ArrayList<>();
            for (int i = 0; i < 4; i++) {
                SubjectId id = records.newSubject();
                visits.add(id);
                records.append(ALEX, List.of(Change.set(Kind.VISIT, id, "date", "2026-0" + (i + 1) + "-05")));
            }
            ResultBook book = records.results();
            List<Waiting> waiting = book.waiting(10);
            assertThat(waiting)
                    .extracting(Waiting::visit)
                    .as("the newest first")
                    .startsWith(visits.get(3))
                    .hasSize(4);
            for (Waiting one : waiting) {
                int i = visits.indexOf(one.visit());
                book.keep(
                        Map.of(
                                one,
                                result(
                                        one.visit(),
                                        i == 3 ? VisitResult.GONE : VisitResult.OPEN,
                                        "2026-0" + (i + 1) + "-05",
                                        0.05 + i * 0.01,
                                        i)),
                        Map.of("M-1", "small"),
                        LAST);
            }
            assertThat(book.countWaiting()).isZero();
            assertThat(book.find(visits.get(1)).orElseThrow().figures()).hasSize(1);
            Line line = new Line("leak-rate", "M-1", "");
            assertThat(book.lines("leak-rate", 0, 5))
                    .containsExactly(new LineStanding(line, "SN-1", "small", 0.07, "2"));
            assertThat(book.linesOf("M-1")).hasSize(1);
            assertThat(book.machinesOf("SN-1")).containsExactly("M-1");
            assertThat(book.figures(List.of(line)).get(line)).hasSize(3);
            assertThat(book.figures()).containsExactly("leak-rate");
            assertThat(book.countFamily("leak-rate", "small", "")).isOne();
            assertThat(book.lastOfFamily("leak-rate", "small", "", 0)).hasValue(0.07);
            assertThat(book.lastOfFamily("leak-rate", "small", "", 1)).isEmpty();
            LocalDate from = LocalDate.of(2026, 2, 1);
            LocalDate until = LocalDate.of(2026, 12, 31);
            assertThat(book.months(from, until))
                    .as("what is gone, or earlier, does not count")
                    .extracting(VisitResult.Month::month)
                    .containsExactly("2026-02", "2026-03");
            assertThat(book.months(from, until))
                    .extracting(VisitResult.Month::assessed)
                    .as("what is still being written neither passes nor fails at the first visit")
                    .containsExactly(0L, 0L);
            assertThat(book.turnArounds(from, until)).containsExactly(10L, 20L);
            assertThat(book.open(2)).extracting(VisitResult::visit).containsExactly(visits.get(2), visits.get(1));
            assertThat(Verifier.verify(records, List.of(), Reassessment.NONE).differences())
                    .isEmpty();

            Waiting early = new Waiting(visits.get(0), records.head().tree().size());
            records.append(ALEX, List.of(Change.set(Kind.VISIT, visits.get(0), "purpose", "yearly")));
            assertThat(book.waiting(5)).extracting(Waiting::visit).containsExactly(visits.get(0));
            book.keep(Map.of(early, result(visits.get(0), VisitResult.OPEN, "2026-01-05", 0.05, 0)), Map.of(), LAST);
            assertThat(book.countWaiting())
                    .as("it changed after it was assessed, so it waits still")
                    .isOne();
            records.rebuildIndex();
            assertThat(book.countWaiting()).isEqualTo(4);
            Waiting first = book.waiting(1).get(0);
            book.keep(Map.of(first, unread(first.visit(), "file gone")), Map.of(), LAST);
            assertThat(book.unassessed(5))
                    .extracting(VisitResult::why)
                    .containsExactly(new VisitResult.Reason("run 1", "file gone"));
            assertThat(book.countUnassessed()).isOne();
            assertThat(book.countDatedAfterSignature(from, until)).isOne();
            book.keep(Map.of(first, unread(first.visit(), "told by somebody who was slower")), Map.of(), LAST);
            assertThat(book.find(first.visit()).orElseThrow().why().text())
                    .as("the visit waits no more, so nothing is kept over what it came to")
                    .isEqualTo("file gone");
            book.awaitUnread();
            assertThat(book.waiting(5)).extracting(Waiting::visit).contains(first.visit());
            assertThat(book.months(from, until))
                    .extracting(VisitResult.Month::assessed)
                    .as("not assessed is not counted among what was assessed")
                    .containsExactly(0L);
            assertThat(book.lines("leak-rate", 0, 5)).isEmpty();
            assertThat(Verifier.verify(records, List.of(), Reassessment.NONE).differences())
                    .isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource
    void long_lists_are_read_page_by_page(Stores.Engine engine) {
        try (Records records = Records.open(Stores.fresh(engine, folder), new TestClock(), ON_ITS_DAY)) {
            List<SubjectId> ids = new ArrayList<>();
            for (int i = 0; i < 7; i++) {
                SubjectId id = records.newSubject();
                ids.add(id);
                records.append(
                        ALEX,
                        List.of(
                                Change.set(Kind.STERILIZER, id, "serial", "SN-" + i),
                                Change.set(Kind.STERILIZER, id, "number", "2026-01-0" + (7 - i)),
                                Change.set(Kind.STERILIZER, id, "stated/room", "R" + i % 2)));
                records.append(
                        ALEX, List.of(Change.set(Kind.CLINIC, records.newSubject(), "name", "Old Mill Dental " + i)));
            }
            assertThat(records.count(Kind.STERILIZER)).isEqualTo(7);
            assertThat(records.subjects(Kind.STERILIZER, 5, 5))
                    .extracting(Subject::id)
                    .containsExactly(ids.get(5), ids.get(6));
            assertThat(records.subjects(List.of(ids.get(4), records.newSubject(), ids.get(1))))
                    .extracting(Subject::id)
                    .containsExactly(ids.get(4), ids.get(1));
            assertThat(records.newest(Kind.STERILIZER, 4, 2))
                    .extracting(Subject::id)
                    .containsExactly(ids.get(2), ids.get(1));
            assertThat(records.exactly(Kind.CLINIC, "name", "Old Mill Dental 3"))
                    .hasSize(1);
            assertThat(records.exactly(Kind.CLINIC, "name", "Old Mill Dental")).isEmpty();
            assertThat(records.find("old mill", Set.of(Kind.STERILIZER), 9).hits())
                    .isEmpty();
            assertThat(records.find("old mill", Set.of(Kind.CLINIC), 9).hits()).hasSize(7);
            assertThat(records.usersOf(Use.ROOM, Kind.STERILIZER, Set.of("R1", "R9")))
                    .extracting(Subject::id)
                    .containsExactly(ids.get(1), ids.get(3), ids.get(5));
            LocalDate until = LocalDate.of(2026, 1, 6);
            assertThat(records.countDue(until)).isEqualTo(6);
            assertThat(records.countLate(until)).isEqualTo(5);
            assertThat(records.countLate(until, Set.of(ids.get(6), ids.get(0)))).isOne();
            List<DueDate> second = records.due(until, DueStart.counted(2), 2);
            DueStart third = DueStart.counted(2)
                    .later(2, DueStart.At.of(records.due(until, 9).get(4)));
            assertThat(records.due(until, third, 9)).hasSize(2).isEqualTo(records.due(until, DueStart.counted(4), 9));
            assertThat(records.due(
                            until,
                            new DueStart(
                                    4,
                                    DueStart.At.parse(third.at().orElseThrow().text())),
                            9))
                    .as("through an address")
                    .hasSize(2);
            assertThat(records.earlier(third, third.at().orElseThrow(), 2))
                    .isEqualTo(new DueStart(2, Optional.of(DueStart.At.of(second.get(0)))));
            assertThat(records.earlier(third, third.at().orElseThrow(), 4)).isEqualTo(DueStart.FIRST);
            DueStart.At gone = new DueStart.At(second.get(0).day(), records.newSubject(), "x");
            assertThat(records.due(until, new DueStart(2, Optional.of(gone)), 9))
                    .as("an entry that is gone: the list goes on behind its day")
                    .allMatch(entry -> entry.day().isAfter(gone.day()));
            assertThat(DueStart.At.parse("2026-13-01_x_y")).isEmpty();
            assertThat(DueStart.At.parse("2026-01-01")).isEmpty();
            assertThat(second).extracting(DueDate::sterilizer).containsExactly(ids.get(4), ids.get(3));
            assertThat(records.dueBefore(second.get(0), ids)).containsExactlyInAnyOrder(ids.get(6), ids.get(5));
            SubjectId visit = records.newSubject();
            records.append(ALEX, List.of(Change.set(Kind.VISIT, visit, "date", "2026-05-05")));
            assertThat(records.visitsFrom(LocalDate.of(2026, 5, 5), 3))
                    .extracting(Subject::id)
                    .containsExactly(visit);
            assertThat(records.visitsFrom(LocalDate.of(2026, 5, 6), 3)).isEmpty();
        }
    }
}
