package org.steamwright.intake.certificate;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.intake.xml.XmlElement;

/** What was odd about a certificate, each said once, in the order in which it was seen. */
final class Notes {

    /** A file that makes more than this is no certificate anybody reads; the rest is counted. */
    private static final int MOST = 200;

    private final String file;
    private final Set<Remark> remarks = new LinkedHashSet<>();
    private int more;

    Notes(String file) {
        this.file = file;
    }

    void add(CertificateMessage message, Rank rank, XmlElement place, String text) {
        add(message, rank, place.line(), text);
    }

    /** A remark about the whole file. */
    void add(CertificateMessage message, Rank rank, String text) {
        add(message, rank, 0, text);
    }

    private void add(CertificateMessage message, Rank rank, int line, String text) {
        Remark remark = new Remark(message.id(), rank, line == 0 ? file : file + ", line " + line, text);
        if (remarks.contains(remark)) {
            return;
        }
        if (remarks.size() < MOST) {
            remarks.add(remark);
        } else {
            more++;
        }
    }

    List<Remark> all() {
        List<Remark> all = new ArrayList<>(remarks);
        if (more > 0) {
            all.add(new Remark(
                    CertificateMessage.NOT_UNDERSTOOD.id(),
                    Rank.DOUBT,
                    file,
                    "There are " + more + " remarks more than the " + MOST
                            + " listed. Ask the laboratory for a plainer certificate."));
        }
        return all;
    }
}
