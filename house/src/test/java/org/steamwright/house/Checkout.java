package org.steamwright.house;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** The files of the project as they stand on disk, without what the build makes. */
final class Checkout {

    static final Path ROOT = Path.of(System.getProperty("steamwright.root", ".."))
            .toAbsolutePath()
            .normalize();

    private static final Set<String> MADE =
            Set.of(".git", "target", ".idea", ".vscode", "demo", ".jqwik-database", ".building");

    private Checkout() {}

    /** All files of the project, sorted. */
    static List<Path> files() {
        List<Path> files = new ArrayList<>();
        try {
            Files.walkFileTree(ROOT, new SimpleFileVisitor<>() {
                @Override
                public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes attributes) {
                    return MADE.contains(folder.getFileName().toString())
                            ? FileVisitResult.SKIP_SUBTREE
                            : FileVisitResult.CONTINUE;
                }

                @Override
                public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
                    if (attributes.isRegularFile()
                            && !MADE.contains(file.getFileName().toString())) {
                        files.add(file);
                    }
                    return FileVisitResult.CONTINUE;
                }
            });
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        files.sort(null);
        return files;
    }

    static List<Path> filesEndingWith(String ending) {
        return files().stream()
                .filter(file -> file.getFileName().toString().endsWith(ending))
                .toList();
    }

    /** Java sources that are shipped, of every module. */
    static List<Path> mainSources() {
        return filesEndingWith(".java").stream()
                .filter(file -> relative(file).contains("/src/main/java/"))
                .toList();
    }

    /** Pages that people read; not the notes beside test cases. */
    static List<Path> pages() {
        return filesEndingWith(".md").stream()
                .filter(file -> !relative(file).contains("/src/test/"))
                .toList();
    }

    /** Every byte as one sign, for files in whatever encoding. */
    static String signs(Path file) {
        try {
            return Files.readString(file, StandardCharsets.ISO_8859_1);
        } catch (IOException e) {
            throw new UncheckedIOException(relative(file), e);
        }
    }

    static String text(Path file) {
        try {
            return Files.readString(file, StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(relative(file), e);
        }
    }

    /** Path from the root with forward slashes, as it is written in pages. */
    static String relative(Path file) {
        return ROOT.relativize(file).toString().replace('\\', '/');
    }
}
