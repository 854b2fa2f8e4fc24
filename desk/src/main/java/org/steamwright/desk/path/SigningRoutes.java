package org.steamwright.desk.path;

import java.io.IOException;
import java.time.Instant;
import java.util.Arrays;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.accounts.Brake;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.shelf.Review;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.ProblemText;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.Duty;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.SigningKeys;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitChangedException;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;

/**
 * What is done with a secret of one's own: making or renewing a key, signing, withdrawing. Wrong secrets are braked as wrong
 * passwords are, all of them together.
 */
final class SigningRoutes {

    private static final int FREE_WRONG_SECRETS = 5;

    private final Office office;
    private final Brake wrongSecrets;

    SigningRoutes(Office office) {
        this.office = office;
        this.wrongSecrets = new Brake(office.clock(), FREE_WRONG_SECRETS);
    }

    /** Makes or renews the key of somebody of the visit, or of whoever asks. */
    Reply key(Ask ask, Draft draft) throws FilingException, DraftRefusal {
        if (!ask.typed("secret").equals(ask.typed("again"))) {
            return new Reply.Refusal(
                    422, ask.frame().say("path.secrets-differ"), ask.frame().say("path.secrets-differ-remedy"));
        }
        Draft settled = draft.settle(ask.author());
        String name = ask.typed("name");
        Set<Duty> duties = Closing.duties(settled, name);
        SigningKeys keys = new SigningKeys(office.records());
        boolean isHere =
                Closing.isNamed(settled, name) || name.equals(ask.person().name());
        if (!isHere || !keys.isOpenTo(name, duties, ask.author())) {
            return notYours(ask, name);
        }
        char[] old = ask.secret("old");
        char[] secret = ask.secret("secret");
        try {
            if (!keys.hasKey(name)) {
                keys.make(name, duties, secret, ask.author());
            } else if (!keys.hasUsers() && !ask.typed("reason").isEmpty()) {
                keys.replace(name, ask.typed("reason"), secret, ask.author());
            } else {
                Optional<Reply> wait = braked(ask, name, () -> keys.renew(name, duties, old, secret, ask.author()));
                if (wait.isPresent()) {
                    return wait.get();
                }
            }
        } finally {
            Arrays.fill(old, ' ');
            Arrays.fill(secret, ' ');
        }
        return new Reply.Next(Context.address(draft) + "/" + Stage.CLOSE.word());
    }

    private static Reply notYours(Ask ask, String name) {
        return new Reply.Refusal(
                403, ask.frame().say("path.not-your-key", name), ask.frame().say("path.not-your-key-remedy"));
    }

    /** What asks for a secret. */
    @FunctionalInterface
    private interface WithSecret {
        void act() throws IOException, FilingException, VisitFolderException;
    }

    /** Lets a secret be tried as a log-in is: after some wrong ones, only after a wait that doubles. */
    private Optional<Reply> braked(Ask ask, String name, WithSecret use) throws FilingException {
        Optional<Instant> wait = wrongSecrets.until(name);
        if (wait.isPresent()) {
            return Optional.of(new Reply.Refusal(
                    429,
                    ask.frame().say("path.secret-wait"),
                    ask.frame()
                            .say(
                                    "path.secret-wait-remedy",
                                    ask.frame()
                                            .figures()
                                            .time(wait.get()
                                                    .atZone(office.clock().getZone())))));
        }
        // counted before it is looked at, so that many at once gain nothing
        wrongSecrets.failed(name);
        boolean isWrong = false;
        try {
            use.act();
            wrongSecrets.succeeded(name);
            return Optional.empty();
        } catch (RecordsException refused) {
            isWrong = refused.id() == RecordsMessage.SECRET_WRONG;
            if (isWrong) {
                return Optional.of(new Reply.Refusal(
                        409,
                        ask.frame().say("path.secret-wrong", name),
                        ask.frame().say("path.secret-wrong-remedy")));
            }
            throw refused;
        } catch (VisitFolderException unreadable) {
            return Optional.of(new Reply.Refusal(
                    422, ProblemText.of(ask.frame(), unreadable), ask.frame().say("path.unknown-remedy")));
        } catch (IOException unreadable) {
            return Optional.of(new Reply.Refusal(
                    422, String.valueOf(unreadable.getMessage()), ask.frame().say("path.unknown-remedy")));
        } finally {
            if (!isWrong) {
                wrongSecrets.takeBack(name);
            }
        }
    }

    Reply sign(Ask ask, Draft draft) throws FilingException, DraftRefusal {
        Draft settled = draft.settle(ask.author());
        String name = ask.typed("name");
        if (!new SigningKeys(office.records()).isOpenTo(name, Closing.duties(settled, name), ask.author())) {
            return notYours(ask, name);
        }
        Optional<Gate> shut = Gate.shut(settled);
        if (shut.isPresent()) {
            return new Reply.Refusal(
                    409,
                    ask.frame().say("path." + shut.get().words(), shut.get().parts()),
                    ask.frame().say("path.gate.not-signed"));
        }
        boolean isReceipt = ask.typed("meaning").equals(Duty.REPRESENTATIVE.meaning());
        if (office.rules().isSignedOnlyWhenApproved()
                && !isReceipt
                && Review.of(settled.subject()).filter(Review::isApproved).isEmpty()) {
            return new Reply.Refusal(
                    409, ask.frame().say("path.not-approved"), ask.frame().say("path.not-approved-remedy"));
        }
        char[] secret = ask.secret("secret");
        try {
            Optional<Reply> wait = braked(
                    ask,
                    name,
                    () -> office.filing()
                            .sign(
                                    settled.subject(),
                                    Optional.of(ask.typed("seen")),
                                    name,
                                    ask.typed("meaning"),
                                    secret,
                                    ask.author()));
            if (wait.isPresent()) {
                return wait.get();
            }
        } catch (VisitChangedException changed) {
            return new Reply.Refusal(
                    409, ask.frame().say("path.not-as-seen"), ask.frame().say("path.not-as-seen-remedy"));
        } finally {
            Arrays.fill(secret, ' ');
        }
        return new Reply.Next(Context.address(draft) + "/" + Stage.CLOSE.word());
    }

    /** Takes a report back that is out, by a signature of its own. */
    Reply withdraw(Ask ask, Draft draft) throws FilingException {
        Optional<Reply> bad = CorrectionRoutes.withoutReason(ask, ask.typed("reason"));
        if (bad.isPresent()) {
            return bad.get();
        }
        StatedVisit stated = new VisitStates(office.records()).of(draft.subject());
        if (stated.issue().isEmpty() || !stated.state().isOut()) {
            return CorrectionRoutes.refusal(ask, 409, "path.not-in-force");
        }
        String name = ask.typed("name");
        if (!new SigningKeys(office.records()).isOpenTo(name, Set.of(), ask.author())) {
            return CorrectionRoutes.refusal(ask, 403, "path.not-your-name");
        }
        char[] secret = ask.secret("secret");
        try {
            Optional<Reply> wait = braked(
                    ask, name, () -> office.filing().withdraw(stated, name, ask.typed("reason"), secret, ask.author()));
            if (wait.isPresent()) {
                return wait.get();
            }
        } finally {
            Arrays.fill(secret, ' ');
        }
        return new Reply.Next(Context.address(draft) + "/" + Stage.CLOSE.word());
    }
}
