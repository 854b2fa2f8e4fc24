package org.steamwright.fuzz;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;

/**
 * The long campaign at one door: random changes of what is kept, in one program and without instrumenting it, so that ten
 * million inputs are a matter of an hour or two. An input whose outcome (message, questions, remarks) was not seen before
 * is changed further. {@code tools/fuzz} runs it with 256 MB of heap.
 */
final class Campaign {

    private static final int MOST_GROWN = 4_000;
    private static final int TOLD_EVERY = 50_000;

    private Campaign() {}

    /** Arguments: the root of the project, the door, how many inputs, a folder for what goes wrong, and a seed. */
    public static void main(String[] arguments) throws IOException {
        Path root = Path.of(arguments[0]);
        Doors door = Doors.valueOf(arguments[1].toUpperCase(Locale.ROOT));
        long runs = Long.parseLong(arguments[2]);
        Path found = Path.of(arguments[3]);
        Random random = new Random(Long.parseLong(arguments[4]));
        List<byte[]> inputs = new ArrayList<>();
        for (byte[] input : Kept.of(root, door)) {
            if (input.length > 0 && input.length <= Changes.LONGEST) {
                inputs.add(input);
            }
        }
        int kept = inputs.size();
        Set<String> outcomes = new HashSet<>();
        long crashes = 0;
        long longest = 0;
        long began = System.nanoTime();
        for (long run = 1; run <= runs; run++) {
            byte[] one = ofTwo(inputs, random);
            byte[] changed = Changes.some(one, inputs, random);
            long before = System.nanoTime();
            try {
                String outcome = door.enter(changed);
                if (outcomes.add(outcome) && inputs.size() < kept + MOST_GROWN && changed.length <= Changes.LONGEST) {
                    inputs.add(changed);
                }
            } catch (IOException | RuntimeException | OutOfMemoryError | StackOverflowError crash) {
                crashes++;
                if (outcomes.add(String.valueOf(crash))) {
                    keep(found, changed, crash);
                }
            }
            longest = Math.max(longest, System.nanoTime() - before);
            if (run % TOLD_EVERY == 0 || run == runs) {
                System.out.printf(
                        Locale.ROOT,
                        "%s %,d inputs, %d crashes, %d outcomes, longest %d ms of wall time, heap %d MB at most, %d s%n",
                        door,
                        run,
                        crashes,
                        outcomes.size(),
                        longest / 1_000_000,
                        peakHeap() / 1_000_000,
                        (System.nanoTime() - began) / 1_000_000_000);
            }
        }
        if (crashes > 0) {
            System.exit(1);
        }
    }

    /** One of the inputs, mostly the shorter of two: a short one is through sooner, and a change of it tells more. */
    private static byte[] ofTwo(List<byte[]> inputs, Random random) {
        byte[] one = inputs.get(random.nextInt(inputs.size()));
        byte[] other = inputs.get(random.nextInt(inputs.size()));
        return random.nextInt(4) == 0 == one.length < other.length ? other : one;
    }

    private static void keep(Path found, byte[] input, Throwable crash) throws IOException {
        Files.createDirectories(found);
        Path file = Files.createTempFile(found, "crash-", "");
        Files.write(file, input);
        StringBuilder words = new StringBuilder(crash + "\n");
        for (StackTraceElement place : crash.getStackTrace()) {
            if (words.length() < 4_000) {
                words.append("  at ").append(place).append('\n');
            }
        }
        Files.writeString(file.resolveSibling(file.getFileName() + ".txt"), words, StandardCharsets.UTF_8);
        System.out.println(file + ": " + crash);
    }

    private static long peakHeap() {
        long peak = 0;
        for (MemoryPoolMXBean pool : ManagementFactory.getMemoryPoolMXBeans()) {
            if (pool.getType() == MemoryType.HEAP) {
                peak += pool.getPeakUsage().getUsed();
            }
        }
        return peak;
    }
}
