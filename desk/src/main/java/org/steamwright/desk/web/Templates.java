package org.steamwright.desk.web;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.util.HashMap;
import java.util.Map;

/** Templates, compiled with the program. */
final class Templates {

    private final TemplateEngine engine = TemplateEngine.createPrecompiled(ContentType.Html);

    String render(String template, Frame frame, Map<String, Object> values) {
        Map<String, Object> all = new HashMap<>(values);
        all.put("frame", frame);
        StringOutput output = new StringOutput();
        engine.render(template, all, output);
        return output.toString();
    }
}
