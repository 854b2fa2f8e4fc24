package org.steamwright.command;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.SigningKeys;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Author;
import org.steamwright.records.signing.PublicKeyRecord;

/** Gives a person a key to sign with. */
final class KeyCommand implements Command {

    private static final String END = "--end";

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Give a person a key to sign with.",
                "The key is locked with a secret of that person's own, which is asked for. A key in use is renewed with its",
                "secret, and ends now; what it signed stays valid. A lost secret can't be recovered: say so with --reason",
                "and make a new key. Where the record has users, each makes and renews the own key alone, and the office",
                "ends one with --end and --reason.");
        RecordDoor.place(usage);
        RecordDoor.author(usage);
        usage.value("--for", "NAME", "Whose key, as the record has the name. The author's if left out.");
        usage.value("--reason", "TEXT", "Why the old secret is not asked for; it stays in the journal.");
        usage.flag(END, "End the key, and make none in its place. Needs --reason.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright key office --by 'Kim Sample (invented)'");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        Author author = RecordDoor.author(typed);
        String name = typed.find("--for").orElse(author.name());
        Optional<String> reason = typed.find("--reason");
        return RecordDoor.open(typed, surroundings, records -> {
            SigningKeys keys = new SigningKeys(records);
            keys.requireKnown(name);
            if (typed.isSet(END)) {
                surroundings.say("Key "
                        + keys.end(name, RecordDoor.reason(typed), author).id() + " has ended.");
                return ExitStatus.PASS;
            }
            PublicKeyRecord key;
            if (!keys.hasKey(name)) {
                key = fresh(surroundings, secret -> keys.make(name, Set.of(), secret, author));
            } else if (reason.isPresent()) {
                key = fresh(surroundings, secret -> keys.replace(name, reason.get(), secret, author));
            } else {
                key = RecordDoor.withSecret(
                        "Secret of the key in use: ",
                        surroundings,
                        old -> fresh(surroundings, secret -> keys.renew(name, Set.of(), old, secret, author)));
            }
            surroundings.say("Key " + key.id() + " is ready.");
            return ExitStatus.PASS;
        });
    }

    private static PublicKeyRecord fresh(Surroundings surroundings, RecordDoor.SecretUse<PublicKeyRecord> use)
            throws Refusal, IOException, FilingException, VisitFolderException {
        return RecordDoor.withSecret("Secret for the new key (8 characters or more): ", surroundings, use);
    }
}
