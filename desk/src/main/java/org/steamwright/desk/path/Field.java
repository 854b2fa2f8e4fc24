package org.steamwright.desk.path;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.ProblemText;
import org.steamwright.filing.DraftProblem;
import org.steamwright.intake.folder.Flaw;

/**
 * One fact as it is typed or chosen.
 *
 * @param path where it stands; steps that begin with a question mark name an entry by its keys
 * @param label its name
 * @param look how it is typed
 * @param options to choose from; empty if it is typed
 * @param hint beside it; may be blank
 * @param value as it stands, or as it was typed and refused
 * @param seen value that stands
 * @param proposal what was written the last time; empty if it is the same or nothing was
 * @param complaint why it can't be used; empty if it can
 * @param notice that it was saved, and when; blank if it was not just now
 * @param isTyped whether the value was typed and refused, and does not stand
 * @param quick values of one touch, without opening or typing anything
 */
public record Field(
        String path,
        String label,
        Look look,
        List<Option> options,
        String hint,
        String value,
        String seen,
        Optional<String> proposal,
        Optional<Complaint> complaint,
        String notice,
        boolean isTyped,
        List<Option> quick) {

    /** How a field is typed. */
    public enum Look {
        TEXT,
        LONG,
        DAY,
        COUNT,
        CHOICE
    }

    /**
     * One choice.
     *
     * @param value as it is kept
     * @param label as it is read
     */
    public record Option(String value, String label) {}

    /**
     * Why a value can't be used.
     *
     * @param what was found and expected
     * @param remedy how to mend it; may be blank
     * @param isSaid whether both are in the reader's language already
     * @param problem with which the visit was read, if that is why; what it says comes first
     */
    public record Complaint(String what, String remedy, boolean isSaid, Optional<DraftProblem> problem) {

        /** What the engine says in English. */
        Complaint(String what, String remedy) {
            this(what, remedy, false, Optional.empty());
        }

        /** What the desk says in the reader's language. */
        static Complaint said(String what, String remedy) {
            return new Complaint(what, remedy, true, Optional.empty());
        }

        /** What the visit could not be read with. */
        static Complaint of(DraftProblem problem) {
            return new Complaint("", "", false, Optional.of(problem));
        }

        /** What was found and expected, as the reader gets it. */
        public Told what(Frame frame) {
            return problem.map(one -> ProblemText.what(frame, one)).orElseGet(() -> told(frame, what));
        }

        /** How to mend it, as the reader gets it. */
        public Told remedy(Frame frame) {
            return problem.map(one -> ProblemText.remedy(frame, one)).orElseGet(() -> told(frame, remedy));
        }

        private Told told(Frame frame, String text) {
            return isSaid ? Told.asItIs(text) : frame.hear(text);
        }
    }

    /** The unit of a figure that a hint has as its example; a time of two units is none. */
    private static final Pattern EXAMPLE = Pattern.compile("^\\D*\\d[\\d.,]*\\s([^\\s\\d.,;][^\\d.,;]*)[.,;]");

    /** What an identity in a page has not; a long sheet asks for a thousand. */
    private static final Pattern OTHER_SIGNS = Pattern.compile("[^A-Za-z0-9]+");

    public Field {
        options = List.copyOf(options);
        quick = List.copyOf(quick);
    }

    /** The value as it is read: of a choice its words, a text without line ends. */
    String said() {
        return options.stream()
                .filter(option -> look == Look.CHOICE && option.value().equals(value))
                .map(Option::label)
                .findFirst()
                .orElse(value)
                .replaceAll("\\s+", " ")
                .strip();
    }

    /** Identity in the page. */
    public String id() {
        return id(path);
    }

    static String id(String path) {
        return "f-" + OTHER_SIGNS.matcher(path).replaceAll("-") + "-" + Integer.toHexString(path.hashCode());
    }

    /** Identities of hint, complaint and notice, for readers that are read to. */
    public Optional<String> describedBy() {
        String described = (hint.isBlank() ? "" : id() + "-hint ")
                + (complaint.isPresent() ? id() + "-problem " : "")
                + (notice.isBlank() ? "" : id() + "-saved");
        return described.isBlank() ? Optional.empty() : Optional.of(described.strip());
    }

    /** Whether what stands in the field is not what is kept. */
    public boolean isRefused() {
        return complaint.isPresent() && isTyped;
    }

    /** What was written the last time, as the reader's language writes it. */
    public String shownProposal(Frame frame) {
        return Typing.shown(path, proposal.orElse(""), frame);
    }

    Field typed(String typed, Complaint why) {
        return new Field(
                path, label, look, options, hint, typed, seen, proposal, Optional.of(why), "", true, List.of());
    }

    /** With the figure and the unit of the field's example at one touch, where the figure was typed without a unit. */
    Field offeringUnit(String kept, Frame frame) {
        boolean isWithout = complaint
                .flatMap(Complaint::problem)
                .filter(one -> one.flaw().sort() == Flaw.Sort.NO_UNIT)
                .isPresent();
        Matcher example = EXAMPLE.matcher(hint);
        return isWithout && example.find()
                ? quickly(List.of(new Option(
                        kept + " " + example.group(1), frame.figures().of(kept) + " " + example.group(1))))
                : this;
    }

    /** With answers of one touch. */
    Field quickly(List<Option> answers) {
        return new Field(path, label, look, options, hint, value, seen, proposal, complaint, notice, isTyped, answers);
    }

    /** The same, of which what stands decides nothing. */
    Field complaining(String what, String whatToDo) {
        return complaint.isPresent()
                ? this
                : new Field(
                        path,
                        label,
                        look,
                        options,
                        hint,
                        value,
                        seen,
                        proposal,
                        Optional.of(Complaint.said(what, whatToDo)),
                        notice,
                        isTyped,
                        quick);
    }

    Field proposing(String text) {
        return new Field(
                path, label, look, options, hint, value, seen, Optional.of(text), complaint, notice, isTyped, quick);
    }

    Field noticed(String text) {
        return new Field(path, label, look, options, hint, value, seen, proposal, complaint, text, false, quick);
    }
}
