package gylewarden.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Which start of the board this is, as the kernel names it: other after every boot, the same over a restart of the daemon. */
public record BootId(String text) {
    public static final Path KERNEL = Path.of("/proc/sys/kernel/random/boot_id");

    /** @param file {@link #KERNEL}, unless a test says otherwise */
    public static BootId read(Path file) throws IOException {
        String text = Files.readString(file).strip();
        if (!text.matches("[0-9a-f-]{36}")) throw new IOException(file + " holds no boot id but \"" + text + "\"");
        return new BootId(text);
    }
}
