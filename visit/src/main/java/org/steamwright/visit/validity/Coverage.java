package org.steamwright.visit.validity;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.validity.TodaysLoad.Thing;

/**
 * Whether a load of today is covered by what was tested, with the reasons.
 *
 * <p>Covered means: the same steriliser, a cycle that is qualified and in force on that day, and for each thing of today a
 * counterpart of its own in one and the same tested load that is no easier for steam: family and packaging. What nobody
 * stated is not covered: mass and trays where the tested load has them, and whether the tests of the day passed, are stated too. A hollow A item stands for hollow B and solid ones, hollow B and porous for solid ones.
 *
 * @source RACGP infection prevention guidelines, loading (seen): no larger and no harder than tested; the order of families
 *     follows the definitions of EN 13060 (secondary summary seen); counterparts one by one: own choice, no source
 * @param isCovered the answer
 * @param reasons why not; empty if covered
 * @param by description of the tested load that covers it; empty if none does
 * @param notes what does not change the answer but has to be known
 */
public record Coverage(boolean isCovered, List<String> reasons, Optional<String> by, List<String> notes) {

    /** End of a search that found no room. */
    private static final int NOWHERE = -1;

    private static final String TEST_FIRST =
            "Not yet: nobody said whether the tests that are due today passed. Test first.";

    public Coverage {
        reasons = List.copyOf(reasons);
        notes = List.copyOf(notes);
        if (isCovered != reasons.isEmpty()) {
            throw new IllegalArgumentException("a load is covered, or there is a reason why it is not");
        }
    }

    /** Whether only the tests of the day are missing, and everything else is covered. */
    public boolean isWaitingForTests() {
        return reasons.equals(List.of(TEST_FIRST));
    }

    /** The same answer with what else speaks against it, and what else has to be known. */
    public Coverage and(List<String> moreReasons, List<String> moreNotes) {
        List<String> allReasons = new ArrayList<>(reasons);
        allReasons.addAll(moreReasons);
        List<String> allNotes = new ArrayList<>(notes);
        allNotes.addAll(moreNotes);
        List<String> distinct = allReasons.stream().distinct().toList();
        return new Coverage(distinct.isEmpty(), distinct, distinct.isEmpty() ? by : Optional.empty(), allNotes);
    }

    /** Answers for one load. */
    public static Coverage of(ValidatedState state, TodaysLoad load) {
        List<String> reasons = new ArrayList<>();
        if (!state.serial().strip().equals(load.serial().strip())) {
            reasons.add("This is steriliser %s; what was tested is steriliser %s."
                    .formatted(load.serial().strip(), state.serial()));
        }
        reasons.addAll(state.reasonsAgainst(load.cycle(), load.day(), load.count()));
        if (load.testsPassed().isEmpty()) {
            reasons.add(TEST_FIRST);
        } else if (!load.testsPassed().get()) {
            reasons.add("A test that is due today did not pass.");
        }
        for (Thing thing : load.things()) {
            if (family(thing.family()) == Family.UNKNOWN) {
                reasons.add("Nobody says whether ‘%s’ is solid, hollow A, hollow B or porous.".formatted(thing.name()));
            }
            if (Wrapping.isUnstated(thing.packaging())) {
                reasons.add("The packaging of ‘%s’ is not stated.".formatted(thing.name()));
            }
        }
        Optional<QualifiedCycle> cycle = state.findCycle(load.cycle());
        if (cycle.isPresent() && cycle.get().type() == CycleType.N) {
            load.things().stream()
                    .filter(thing -> family(thing.family()) != Family.SOLID
                            || Wrapping.of(thing.packaging()).layers() > 0)
                    .forEach(
                            thing -> reasons.add("A cycle of type N is for unwrapped solid items only; ‘%s’ is not one."
                                    .formatted(thing.name())));
        }
        Optional<String> by = Optional.empty();
        if (cycle.isPresent() && cycle.get().status() == QualifiedCycle.Status.QUALIFIED) {
            drying(cycle.get(), load, reasons);
            List<String> best = List.of("No load is described with which the cycle passed.");
            List<List<String>> all = new ArrayList<>();
            for (ReferenceLoad tested : cycle.get().loads()) {
                List<String> against = against(tested, load);
                all.add(against);
                if (against.isEmpty() && by.isEmpty()) {
                    by = Optional.of(tested.description());
                }
            }
            if (by.isEmpty()) {
                best = all.stream().min(Comparator.comparingInt(List::size)).orElse(best);
                reasons.addAll(best);
            }
        }
        List<String> distinct = reasons.stream().distinct().toList();
        return new Coverage(
                distinct.isEmpty(), distinct, distinct.isEmpty() ? by : Optional.empty(), notes(load, cycle));
    }

    private static void drying(QualifiedCycle cycle, TodaysLoad load, List<String> reasons) {
        if (cycle.leastDryingSeconds().isPresent()
                && load.dryingSeconds()
                        .filter(set -> set < cycle.leastDryingSeconds().get())
                        .isPresent()) {
            reasons.add("The drying is set shorter than what was tested.");
        }
    }

    private static List<String> notes(TodaysLoad load, Optional<QualifiedCycle> cycle) {
        List<String> notes = new ArrayList<>();
        boolean isNoneWeighed = cycle.isPresent()
                && !cycle.get().loads().isEmpty()
                && cycle.get().loads().stream()
                        .allMatch(tested -> tested.totalKilogram().isEmpty());
        if (isNoneWeighed) {
            notes.add("The tested load was not weighed, so the mass is not compared.");
        }
        boolean isAnyOpen = load.things().stream()
                .anyMatch(thing -> Wrapping.of(thing.packaging()).layers() == 0);
        boolean isAnyWrapped = load.things().stream()
                .anyMatch(thing -> !Wrapping.isUnstated(thing.packaging())
                        && Wrapping.of(thing.packaging()).layers() > 0);
        if (isAnyOpen) {
            notes.add("Unwrapped items are for use at once; they can't be kept sterile.");
        }
        if (cycle.filter(one -> one.type() == CycleType.S).isPresent()) {
            notes.add("A cycle of type S is for what the maker's list names; compare the load with it.");
        }
        if (isAnyOpen && isAnyWrapped) {
            notes.add("Wrapped and unwrapped items together: never put unwrapped items above wrapped ones.");
        }
        int things = load.things().stream().mapToInt(Thing::count).sum();
        boolean isPorous = load.things().stream().anyMatch(thing -> family(thing.family()) == Family.POROUS);
        if (things == 1 && isPorous) {
            notes.add(
                    "A single porous pack in an otherwise empty chamber is the hardest case for air removal; a smaller"
                            + " load is not always an easier one.");
        }
        return notes;
    }

    /** What keeps one tested load from covering it. */
    private static List<String> against(ReferenceLoad tested, TodaysLoad load) {
        List<String> against = new ArrayList<>();
        Optional<Double> mass = tested.totalKilogram();
        Optional<Double> weighed = load.kilogram().filter(now -> now > 0);
        if (mass.isPresent() && weighed.isEmpty()) {
            against.add("The tested load was weighed and today's load was not. State its mass.");
        }
        if (mass.isPresent() && weighed.filter(now -> now > mass.get()).isPresent()) {
            against.add("The load weighs more than the one that was tested.");
        }
        if (tested.trays().isPresent() && load.trays().isEmpty()) {
            against.add("It is stated on how many trays the tested load lay, and not for today's. State the trays.");
        }
        if (tested.trays().isPresent()
                && load.trays().isPresent()
                && load.trays().getAsInt() > tested.trays().getAsInt()) {
            against.add("More trays than tested: %s today, %s in the tested load."
                    .formatted(load.trays().getAsInt(), tested.trays().getAsInt()));
        }
        List<ReferenceLoad.Item> items = tested.items();
        List<Thing> things = load.things();
        long[][] fits = new long[things.size()][items.size()];
        for (int i = 0; i < things.size(); i++) {
            for (int j = 0; j < items.size(); j++) {
                fits[i][j] = stands(items.get(j), tested, things.get(i)) ? 1 : 0;
            }
        }
        long[] wanting = unmatched(
                things.stream().mapToLong(Thing::count).toArray(),
                items.stream().mapToLong(ReferenceLoad.Item::count).toArray(),
                fits);
        for (int i = 0; i < things.size(); i++) {
            if (wanting[i] > 0) {
                Thing thing = things.get(i);
                boolean isAny = Arrays.stream(fits[i]).anyMatch(fit -> fit == 1);
                against.add(
                        isAny
                                ? "There are more things like ‘%s’ than the tested load had of that kind or a harder one (%s too many)."
                                        .formatted(thing.name(), wanting[i])
                                : "Nothing as hard as ‘%s’ (%s, %s) was in the tested load."
                                        .formatted(
                                                thing.name(),
                                                thing.family().strip(),
                                                thing.packaging().strip()));
            }
        }
        return against;
    }

    /** Whether a tested item stands for a thing of today. */
    static boolean stands(ReferenceLoad.Item item, ReferenceLoad tested, Thing thing) {
        String packaging = item.packaging().isBlank() ? tested.packaging() : item.packaging();
        return family(item.family()).standsFor(family(thing.family()))
                && !Wrapping.isUnstated(thing.packaging())
                && Wrapping.of(thing.packaging()).isNoHarderThan(Wrapping.of(packaging));
    }

    /**
     * How many things of each kind find no counterpart when as many as possible do: a greatest flow from kinds of things
     * to kinds of items, by shortest augmenting paths.
     *
     * @source Edmonds and Karp 1972 (from memory)
     */
    static long[] unmatched(long[] things, long[] items, long[][] fits) {
        long[][] flow = new long[things.length][items.length];
        long[] left = things.clone();
        long[] room = items.clone();
        while (true) {
            int[] cameFrom = new int[things.length + items.length];
            Arrays.fill(cameFrom, -2);
            Deque<Integer> queue = new ArrayDeque<>();
            for (int i = 0; i < things.length; i++) {
                if (left[i] > 0) {
                    cameFrom[i] = -1;
                    queue.add(i);
                }
            }
            int end = search(queue, cameFrom, fits, flow, room);
            if (end == NOWHERE) {
                return left;
            }
            push(end, cameFrom, flow, left, room);
        }
    }

    private static int search(Deque<Integer> queue, int[] cameFrom, long[][] fits, long[][] flow, long[] room) {
        int things = fits.length;
        while (!queue.isEmpty()) {
            int at = queue.remove();
            if (at < things) {
                for (int j = 0; j < room.length; j++) {
                    if (fits[at][j] == 1 && cameFrom[things + j] == -2) {
                        cameFrom[things + j] = at;
                        if (room[j] > 0) {
                            return things + j;
                        }
                        queue.add(things + j);
                    }
                }
            } else {
                for (int i = 0; i < things; i++) {
                    if (flow[i][at - things] > 0 && cameFrom[i] == -2) {
                        cameFrom[i] = at;
                        queue.add(i);
                    }
                }
            }
        }
        return NOWHERE;
    }

    private static void push(int end, int[] cameFrom, long[][] flow, long[] left, long[] room) {
        int things = left.length;
        long amount = room[end - things];
        int at = end;
        while (cameFrom[at] >= 0) {
            int before = cameFrom[at];
            if (before >= things) {
                amount = Math.min(amount, flow[at][before - things]);
            }
            at = before;
        }
        amount = Math.min(amount, left[at]);
        left[at] -= amount;
        room[end - things] -= amount;
        at = end;
        while (cameFrom[at] >= 0) {
            int before = cameFrom[at];
            if (before < things) {
                flow[before][at - things] += amount;
            } else {
                flow[at][before - things] -= amount;
            }
            at = before;
        }
    }

    static Family family(String words) {
        return switch (ValidatedState.key(words)) {
            case "solid" -> Family.SOLID;
            case "hollow a" -> Family.HOLLOW_A;
            case "hollow b" -> Family.HOLLOW_B;
            case "porous" -> Family.POROUS;
            default -> Family.UNKNOWN;
        };
    }

    /** Families of items by how hard they are for steam. */
    enum Family {
        SOLID,
        HOLLOW_A,
        HOLLOW_B,
        POROUS,
        UNKNOWN;

        boolean standsFor(Family other) {
            return switch (other) {
                case UNKNOWN -> false;
                case SOLID -> this != UNKNOWN;
                case HOLLOW_B -> this == HOLLOW_B || this == HOLLOW_A;
                case HOLLOW_A, POROUS -> this == other;
            };
        }
    }
}
