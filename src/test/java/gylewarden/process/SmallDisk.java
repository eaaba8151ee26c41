package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** A small file system in memory, or a file that can only be read; needs the right to mount. Closing unmounts it. */
record SmallDisk(Path folder) implements AutoCloseable {
    /** @param size as the mount option of that name, such as 64k */
    static SmallDisk mount(Path at, String size) throws IOException, InterruptedException {
        Files.createDirectories(at);
        may(at.getParent(), "mount", "-t", "tmpfs", "-o", "size=" + size + ",nr_inodes=100", "none", at.toString());
        return new SmallDisk(at);
    }

    /** Makes one file read-only, over whatever it is on; closing lets it be written again, also while it is open. */
    static SmallDisk onlyReadable(Path file) throws IOException, InterruptedException {
        may(file.getParent(), "mount", "--bind", file.toString(), file.toString());
        var taken = new SmallDisk(file);
        taken.remount("bind,ro");
        return taken;
    }

    /** Where the right to do this is missing, the test is left out; but not where all have to run. */
    static void may(Path folder, String... command) throws IOException, InterruptedException {
        Jar.Outcome outcome = Jar.end(folder, List.of(command));
        if (outcome.status() == 0) return;
        String missing = "the right to mount a file system: " + outcome.err();
        if ("true".equals(System.getenv("CI"))) fail(missing);
        abort(missing);
    }

    void fill() throws IOException {
        try (var out = Files.newOutputStream(filler())) {
            for (int i = 0; i < 64 << 10; i++) out.write(new byte[1024]);
        } catch (IOException full) {
            assertTrue(full.getMessage().contains("No space left"), full.getMessage());
            return;
        }
        fail("64 MB fitted on a small disk");
    }

    void makeRoom() throws IOException {
        Files.delete(filler());
    }

    private Path filler() {
        return folder.resolve("filler");
    }

    /** @param how a mount option */
    void remount(String how) throws IOException, InterruptedException {
        Jar.tool(folder.getParent(), "mount", "-o", "remount," + how, folder.toString());
    }

    @Override
    public void close() throws IOException {
        try {
            Jar.tool(folder.getParent(), "umount", "-l", folder.toString());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
