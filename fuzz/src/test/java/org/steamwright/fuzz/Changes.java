package org.steamwright.fuzz;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Random;

/** Random changes of inputs, the same on every machine. */
final class Changes {

    /** Bytes of an input that is worth changing. */
    static final int LONGEST = 20_000;

    private static final byte[] NEW_LINE = {'\n'};

    private Changes() {}

    private static final byte[][] BITS = {
        "\n".getBytes(StandardCharsets.UTF_8),
        "\"".getBytes(StandardCharsets.UTF_8),
        ",,,;;;\t|".getBytes(StandardCharsets.UTF_8),
        "2026-02-30T25:61:61".getBytes(StandardCharsets.UTF_8),
        "1e999".getBytes(StandardCharsets.UTF_8),
        "-0.00000000000000000001".getBytes(StandardCharsets.UTF_8),
        "99999999999999999999".getBytes(StandardCharsets.UTF_8),
        "<a b='c'>&lt;</a>".getBytes(StandardCharsets.UTF_8),
        "<!DOCTYPE a>".getBytes(StandardCharsets.UTF_8),
        "\uD83D\uDE00".getBytes(StandardCharsets.UTF_8),
        {0, 0, 0, 0},
        {(byte) 0xFF, (byte) 0xFE},
        {(byte) 0xED, (byte) 0xA0, (byte) 0x80},
        "{[*a, &a b: !!c d]}".getBytes(StandardCharsets.UTF_8)
    };

    /** One to four changes of an input. */
    static byte[] some(byte[] input, List<byte[]> others, Random random) {
        byte[] changed = input;
        for (int i = 1 + random.nextInt(4); i > 0; i--) {
            changed = change(changed, others, random);
        }
        return changed;
    }

    /**
     * One change: a bit, a byte, a piece taken out, doubled, put in or joined from another input; or one that leaves marks
     * and brackets as they are and so gets further in: a word for another, a line taken out, doubled or from elsewhere.
     */
    private static byte[] change(byte[] input, List<byte[]> others, Random random) {
        if (input.length == 0) {
            return BITS[random.nextInt(BITS.length)];
        }
        int at = random.nextInt(input.length);
        int end = Math.min(input.length, at + 1 + random.nextInt(40));
        byte[] piece = Arrays.copyOfRange(input, at, end);
        switch (random.nextInt(11)) {
            case 0 -> {
                byte[] changed = input.clone();
                changed[at] ^= (byte) (1 << random.nextInt(8));
                return changed;
            }
            case 1 -> {
                byte[] changed = input.clone();
                changed[at] = (byte) random.nextInt(256);
                return changed;
            }
            case 2 -> {
                return join(Arrays.copyOf(input, at), new byte[0], Arrays.copyOfRange(input, end, input.length));
            }
            case 3 -> {
                byte[] twice = join(piece, piece, piece);
                return join(Arrays.copyOf(input, at), twice, Arrays.copyOfRange(input, at, input.length));
            }
            case 4 -> {
                byte[] bit = BITS[random.nextInt(BITS.length)];
                return join(Arrays.copyOf(input, at), bit, Arrays.copyOfRange(input, at, input.length));
            }
            case 5 -> {
                byte[] other = others.get(random.nextInt(others.size()));
                return join(Arrays.copyOf(input, at), other, new byte[0]);
            }
            case 6 -> {
                return Arrays.copyOf(input, at);
            }
            case 7, 8 -> {
                byte[] other = others.get(random.nextInt(others.size()));
                byte[] word = random.nextInt(4) == 0
                        ? BITS[random.nextInt(BITS.length)]
                        : stretch(other, random.nextInt(Math.max(1, other.length)), Changes::isOfWord);
                return instead(input, at, word, Changes::isOfWord);
            }
            case 9 -> {
                byte[] line = stretch(input, at, Changes::isOfLine);
                byte[] lines = random.nextBoolean() ? new byte[0] : join(line, NEW_LINE, line);
                return instead(input, at, lines, Changes::isOfLine);
            }
            default -> {
                byte[] other = random.nextBoolean() ? input : others.get(random.nextInt(others.size()));
                byte[] line = stretch(other, random.nextInt(Math.max(1, other.length)), Changes::isOfLine);
                return instead(input, at, line, Changes::isOfLine);
            }
        }
    }

    private static boolean isOfWord(byte one) {
        return one < 0
                || one >= 'a' && one <= 'z'
                || one >= 'A' && one <= 'Z'
                || one >= '0' && one <= '9'
                || one == '.'
                || one == '-'
                || one == '_';
    }

    private static boolean isOfLine(byte one) {
        return one != '\n';
    }

    /** The bytes around a place that belong together; none if the one at the place does not. */
    private static byte[] stretch(byte[] input, int at, Kind kind) {
        return input.length == 0 ? input : Arrays.copyOfRange(input, begin(input, at, kind), end(input, at, kind));
    }

    private static byte[] instead(byte[] input, int at, byte[] other, Kind kind) {
        return join(
                Arrays.copyOf(input, begin(input, at, kind)),
                other,
                Arrays.copyOfRange(input, end(input, at, kind), input.length));
    }

    private static int begin(byte[] input, int at, Kind kind) {
        int begin = at;
        while (begin > 0 && kind.holds(input[begin - 1]) && kind.holds(input[at])) {
            begin--;
        }
        return begin;
    }

    private static int end(byte[] input, int at, Kind kind) {
        int end = at;
        while (end < input.length && kind.holds(input[end])) {
            end++;
        }
        return end;
    }

    /** What belongs together. */
    private interface Kind {
        boolean holds(byte one);
    }

    private static byte[] join(byte[] one, byte[] two, byte[] three) {
        byte[] joined = Arrays.copyOf(one, one.length + two.length + three.length);
        System.arraycopy(two, 0, joined, one.length, two.length);
        System.arraycopy(three, 0, joined, one.length + two.length, three.length);
        return joined;
    }
}
