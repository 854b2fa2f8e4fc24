package org.steamwright.desk.clinic;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.PaperLanguage;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.TiedMachines;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.report.document.CertificatePdf;
import org.steamwright.report.document.Issued;
import org.steamwright.report.document.ReportPdf;
import org.steamwright.report.language.Language;
import org.steamwright.report.picture.Photos;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.register.Sterilizer;

/** What a clinic may read of a visit that somebody signed: report, certificate, and photos of its loads. */
final class Papers {

    private final Office office;
    private final Premises premises;

    Papers(Premises premises) {
        this.office = premises.office();
        this.premises = premises;
    }

    /** The visit that is asked for, if the clinic may read it: it was there, and somebody signed it. */
    private Optional<StatedVisit> signed(Ask ask) {
        Optional<Subject> clinic = premises.asked(ask);
        try {
            return office.records()
                    .find(SubjectId.parse(ask.part("visit")))
                    .filter(visit ->
                            visit.kind() == Kind.VISIT && clinic.isPresent() && Premises.isOf(clinic.get(), visit))
                    .map(new VisitStates(office.records())::of)
                    .filter(stated -> stated.issue().isPresent());
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    /** A photo of a tested load, for its card: made anew, so that nothing comes along that the camera wrote beside it. */
    Reply photo(Ask ask) throws IOException, FilingException, VisitFolderException {
        Optional<StatedVisit> stated = signed(ask);
        String name = ask.typed("name");
        if (stated.isEmpty() || !isOfLoad(office.visits().of(stated.get().visit()), name)) {
            return Premises.unknown(ask);
        }
        Optional<byte[]> bytes = office.filing().pictures(stated.get().visit()).find(name);
        Optional<byte[]> scaled = bytes.isPresent() ? Photos.scaled(bytes.get()) : Optional.empty();
        return scaled.isPresent()
                ? new Reply.Attachment("image/jpeg", out -> out.write(scaled.get()), Optional.empty())
                : Premises.unknown(ask);
    }

    private static boolean isOfLoad(AssessedVisit assessed, String name) {
        return assessed.visit().runs().stream()
                .flatMap(run -> run.load().stream())
                .flatMap(load -> load.photoFiles().stream())
                .anyMatch(photo -> photo.name().equals(name));
    }

    Reply report(Ask ask) throws IOException, FilingException, VisitFolderException {
        Optional<StatedVisit> stated = signed(ask);
        if (stated.isEmpty()) {
            return Premises.unknown(ask);
        }
        Subject visit = stated.get().visit();
        AssessedVisit assessed = office.visits().of(visit);
        Issued issued = office.filing().issued(stated.get());
        Language language = PaperLanguage.of(ask);
        return new Reply.Attachment(
                "application/pdf",
                out -> ReportPdf.write(assessed, issued, office.filing().pictures(visit), language, out),
                Optional.of(visit.text("number").replaceAll("[^A-Za-z0-9._-]+", "-") + language.ending(".pdf")));
    }

    Reply certificate(Ask ask) throws IOException, FilingException, VisitFolderException {
        Optional<StatedVisit> stated = signed(ask);
        if (stated.isEmpty()) {
            return Premises.unknown(ask);
        }
        AssessedVisit assessed = office.visits().of(stated.get().visit());
        TiedMachines tied = TiedMachines.of(stated.get().visit(), assessed.visit(), office.records());
        String machine = ask.part("machine");
        List<Sterilizer> named = assessed.visit().sterilizers().stream()
                .filter(one -> one.serial().equals(machine)
                        || tied.find(one.key())
                                .filter(known -> known.id().toString().equals(machine))
                                .isPresent())
                .toList();
        if (named.size() != 1) {
            return Premises.unknown(ask);
        }
        Sterilizer sterilizer = named.get(0);
        Issued issued = office.filing().issued(stated.get());
        Language language = PaperLanguage.of(ask);
        return new Reply.Attachment(
                "application/pdf",
                out -> CertificatePdf.write(assessed, sterilizer.key(), issued, language, out),
                Optional.of(CertificatePdf.fileName(sterilizer, language)));
    }
}
