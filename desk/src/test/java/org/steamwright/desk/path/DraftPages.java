package org.steamwright.desk.path;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.Map;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Draft;

/** The pages of a visit as a browser asks for them. */
final class DraftPages {

    private DraftPages() {}

    static String address(Draft draft, String below) {
        return "/visits/" + draft.id() + "/" + below;
    }

    static Map<String, String> field(Stage stage, String path, String value, String seen) {
        return Map.of("stage", stage.word(), "path", path, "value", value, "seen", seen);
    }

    /** A field saved as the page does it with a script. */
    static HttpResponse<String> save(OpenDesk desk, Draft draft, Map<String, String> field) throws Exception {
        HttpRequest.Builder form = desk.form(address(draft, "facts"), field);
        return desk.send(form.header("X-Token", desk.token()).header("HX-Request", "true"));
    }
}
