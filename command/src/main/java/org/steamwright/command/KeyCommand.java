package org.steamwright.command;

import java.io.IOException;
import java.util.List;
import org.steamwright.filing.Filing;
import org.steamwright.records.signing.Keys;
import org.steamwright.records.signing.PublicKeyRecord;

/** Gives a person a key to sign with. */
final class KeyCommand implements Command {

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Give a person a key to sign with.",
                "The key is locked with a secret of that person's own, which is asked for. An earlier key ends now; what",
                "it signed stays valid. A lost secret can't be recovered: make a new key.");
        RecordDoor.place(usage);
        RecordDoor.author(usage);
        usage.value("--for", "NAME", "Whose key, as the record has the name. The author's if left out.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright key office --by 'Kim Sample (invented)'");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        var author = RecordDoor.author(typed);
        return RecordDoor.open(typed, surroundings, records -> {
            var owner = new Filing(records).technician(typed.find("--for").orElse(author.name()));
            PublicKeyRecord key = RecordDoor.withSecret(
                    "Secret for the new key (8 characters or more): ",
                    surroundings,
                    secret -> new Keys(records).renew(owner, secret, author));
            surroundings.say("Key " + key.id() + " is ready.");
            return ExitStatus.PASS;
        });
    }
}
