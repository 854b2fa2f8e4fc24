package org.steamwright.desk.path;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.PaperLanguage;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.report.document.CertificatePdf;
import org.steamwright.report.document.Issued;
import org.steamwright.report.document.ReportPdf;
import org.steamwright.report.language.Language;
import org.steamwright.report.result.ResultJson;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.register.Sterilizer;

/** What a visit gives on paper and as files: report, certificates, result, what was put into it. */
final class PaperRoutes {

    private final Office office;

    PaperRoutes(Office office) {
        this.office = office;
    }

    private AssessedVisit assessed(Draft draft) throws IOException, FilingException, VisitFolderException {
        return office.visits().of(draft.subject());
    }

    Reply report(Ask ask, Draft draft) throws IOException, FilingException, VisitFolderException {
        Language language = PaperLanguage.of(ask);
        ByteArrayOutputStream pdf = new ByteArrayOutputStream();
        AssessedVisit assessed = assessed(draft);
        ReportPdf.write(assessed, issued(draft, assessed), name -> draft.bytes(name), language, pdf);
        return new Reply.Attachment(
                "application/pdf", pdf::writeTo, Optional.of(fileName(draft) + language.ending(".pdf")));
    }

    Reply certificate(Ask ask, Draft draft) throws IOException, FilingException, VisitFolderException {
        AssessedVisit assessed = assessed(draft);
        String key = ask.typed("sterilizer");
        Optional<Sterilizer> sterilizer = assessed.visit().sterilizers().stream()
                .filter(one -> one.key().equals(key))
                .findFirst();
        if (sterilizer.isEmpty()) {
            return new Reply.Refusal(
                    404, ask.frame().say("path.no-file", key), ask.frame().say("path.unknown-remedy"));
        }
        ByteArrayOutputStream pdf = new ByteArrayOutputStream();
        Language language = PaperLanguage.of(ask);
        CertificatePdf.write(assessed, key, issued(draft, assessed), language, pdf);
        return new Reply.Attachment(
                "application/pdf",
                pdf::writeTo,
                Optional.of(fileName(draft) + "-" + CertificatePdf.fileName(sterilizer.get(), language)));
    }

    private Issued issued(Draft draft, AssessedVisit assessed) throws IOException {
        return office.filing().issued(new VisitStates(office.records()).of(draft.subject()), assessed);
    }

    Reply result(Draft draft) throws IOException, FilingException, VisitFolderException {
        ByteArrayOutputStream json = new ByteArrayOutputStream();
        ResultJson.write(assessed(draft), json);
        return new Reply.Attachment("application/json", json::writeTo, Optional.of(fileName(draft) + ".json"));
    }

    private static String fileName(Draft draft) {
        return draft.number().replaceAll("[^A-Za-z0-9._-]+", "-");
    }

    static Reply file(Ask ask, Draft draft, String name) {
        Optional<byte[]> bytes = draft.bytes(name);
        if (bytes.isEmpty()) {
            return new Reply.Refusal(
                    404, ask.frame().say("path.no-file", name), ask.frame().say("path.unknown-remedy"));
        }
        String small = name.toLowerCase(Locale.ROOT);
        // only what this desk made itself is shown in the page; anything else is given to be kept
        boolean isPhoto = small.startsWith("photos/") && small.endsWith(".jpg");
        boolean isInk = small.startsWith("signatures/") && small.endsWith(".svg");
        String type = isPhoto ? "image/jpeg" : isInk ? "image/svg+xml" : "application/octet-stream";
        return new Reply.Attachment(
                type,
                out -> out.write(bytes.get()),
                isPhoto ? Optional.empty() : Optional.of(name.substring(name.lastIndexOf('/') + 1)));
    }
}
