package org.steamwright.desk.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Drafts;

/** What the record refuses is said in the reader's language, with the identity by which its page in the manual is found. */
class RecordRefusalTest {

    private static final String NAME = "Kim Sample (invented)";

    @TempDir
    private Path folder;

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            en | RECORD-033 the secret has 5 characters; 8 or more are needed
            de | RECORD-033 Das Geheimwort hat so viele Zeichen: 5. Gebraucht werden 8 oder mehr
            fr | RECORD-033 Le mot secret a ce nombre de caractères : 5. Il en faut 8 ou plus
            """)
    void a_refusal_of_the_record(String language, String said) throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            desk.post(
                    "/visits",
                    Map.of(
                            "number", "R-2026-0062",
                            "purpose", "yearly requalification",
                            "date", "2026-08-03",
                            "criteria-set", "eu-en13060",
                            "clinic", "Harbour Street Dental (invented)",
                            "serial", "EX-3003",
                            "zone", "Australia/Adelaide",
                            "technician", NAME));
            String visit = new Drafts(desk.records())
                    .find("R-2026-0062")
                    .orElseThrow()
                    .id()
                    .toString();
            HttpResponse<String> answer = desk.send(
                    desk.form("/visits/" + visit + "/keys", Map.of("name", NAME, "secret", "short", "again", "short"))
                            .header("X-Token", desk.token())
                            .header("Accept-Language", language));
            assertThat(answer.statusCode()).isEqualTo(409);
            assertThat(answer.body()).contains(said);
        }
    }
}
