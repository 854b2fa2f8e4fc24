package org.steamwright.intake.xml;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/** A stream that ends with a refusal after so many bytes; closing it leaves the inner stream open. */
final class BoundedStream extends FilterInputStream {

    private final long most;
    private long left;
    private boolean isExceeded;

    BoundedStream(InputStream in, long most) {
        super(in);
        this.most = most;
        this.left = most;
    }

    @Override
    public int read() throws IOException {
        int value = super.read();
        if (value >= 0) {
            count(1);
        }
        return value;
    }

    @Override
    public int read(byte[] into, int from, int length) throws IOException {
        int n = super.read(into, from, length);
        count(Math.max(n, 0));
        return n;
    }

    @Override
    public long skip(long n) throws IOException {
        long skipped = super.skip(n);
        count(skipped);
        return skipped;
    }

    @Override
    public boolean markSupported() {
        return false;
    }

    @Override
    public void close() {
        // whoever opened the inner stream closes it: a package of several documents is read on
    }

    boolean isExceeded() {
        return isExceeded;
    }

    XmlRefusedException refusal() {
        return new XmlRefusedException(
                XmlRefusedException.Reason.TOO_LARGE,
                "more than " + most + " bytes; that is the limit for this kind of document");
    }

    private void count(long n) throws IOException {
        left -= n;
        if (left < 0) {
            isExceeded = true;
            throw new IOException("more than " + most + " bytes");
        }
    }
}
