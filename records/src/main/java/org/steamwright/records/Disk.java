package org.steamwright.records;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** The steps by which a file becomes durable; an own class so that tests can let each of them fail. */
class Disk {

    void createFolder(Path folder) throws IOException {
        Files.createDirectories(folder);
    }

    FileChannel create(Path file) throws IOException {
        return FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    }

    void write(FileChannel channel, ByteBuffer bytes) throws IOException {
        while (bytes.hasRemaining()) {
            channel.write(bytes);
        }
    }

    void force(FileChannel channel) throws IOException {
        channel.force(true);
    }

    void move(Path from, Path to) throws IOException {
        Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
    }

    /** Makes the name of a file durable. Some systems do not let a folder be opened; there the move has to do. */
    void forceFolder(Path folder) throws IOException {
        FileChannel channel;
        try {
            channel = FileChannel.open(folder, StandardOpenOption.READ);
        } catch (AccessDeniedException e) {
            return;
        }
        try (channel) {
            channel.force(true);
        }
    }
}
