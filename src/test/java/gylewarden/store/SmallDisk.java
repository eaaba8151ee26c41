package gylewarden.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** A file system of its own, small enough to be filled; needs the right to mount one. Closing unmounts it. */
record SmallDisk(Path folder) implements AutoCloseable {
    static SmallDisk mount(Path at, String size) throws IOException, InterruptedException {
        Files.createDirectories(at);
        String complaint = run("mount", "-t", "tmpfs", "-o", "size=" + size, "none", at.toString());
        if (!complaint.isEmpty()) {
            String missing = "the right to mount a file system: " + complaint;
            if ("true".equals(System.getenv("CI"))) fail(missing);
            abort(missing);
        }
        return new SmallDisk(at);
    }

    void fill() throws IOException {
        try (var out = Files.newOutputStream(folder.resolve("filler"))) {
            for (int i = 0; i < 1 << 16; i++) out.write(new byte[1024]);
        } catch (IOException full) {
            assertTrue(full.getMessage().contains("No space left"), full.getMessage());
            return;
        }
        fail("64 MB fitted on a small disk");
    }

    void makeRoom() throws IOException {
        Files.delete(folder.resolve("filler"));
    }

    void remount(String how) throws IOException, InterruptedException {
        assertEquals("", run("mount", "-o", "remount," + how, folder.toString()));
    }

    /** Gone for everybody who looks, though somebody may still have a file of it open. */
    void unmountLazily() throws IOException, InterruptedException {
        assertEquals("", run("umount", "-l", folder.toString()));
    }

    @Override
    public void close() throws IOException {
        try {
            run("umount", "-l", folder.toString());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** What the tool complains about; empty if it did its work. */
    private static String run(String... command) throws IOException, InterruptedException {
        Process tool =
                new ProcessBuilder(List.of(command)).redirectErrorStream(true).start();
        String said = new String(tool.getInputStream().readAllBytes(), StandardCharsets.UTF_8).strip();
        return tool.waitFor() == 0 ? "" : said.isEmpty() ? "status " + tool.exitValue() : said;
    }
}
