package gylewarden.process;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * A fabricated tree of 1-Wire thermometers with faults on demand, laid out as the kernel does: a folder for each probe
 * below its bus master, and links to them in the root. What the files hold: Linux kernel documentation,
 * w1/slaves/w1_therm (from memory), and data sheet 19-7487 for the nine bytes.
 */
final class FakeWires implements AutoCloseable {
    private final Path root;
    private final Path buses;
    private final Path staging;
    private final List<Probe> probes = new ArrayList<>();

    FakeWires(Path folder) throws IOException {
        root = Files.createDirectories(folder.resolve("devices"));
        buses = Files.createDirectories(folder.resolve("buses"));
        staging = Files.createDirectories(folder.resolve("staging"));
    }

    Path root() {
        return root;
    }

    /** Plugs a probe in. */
    Probe plug(int bus, String address, double celsius) throws IOException {
        var probe = new Probe(buses.resolve("w1_bus_master" + bus).resolve(address), root.resolve(address));
        Files.createDirectories(probe.folder);
        probe.says(celsius);
        probe.comesBack();
        probes.add(probe);
        return probe;
    }

    @Override
    public void close() throws IOException {
        for (Probe probe : probes) probe.letGo();
    }

    /** One thermometer. Each change of a file is whole: a reader sees the old content or the new. */
    final class Probe {
        private final Path folder;
        private final Path link;
        private final List<Path> hanging = new ArrayList<>();

        private Probe(Path folder, Path link) {
            this.folder = folder;
            this.link = link;
        }

        private List<Path> files() {
            return List.of(folder.resolve("temperature"), folder.resolve("w1_slave"));
        }

        /** A good reading, in steps of a sixteenth of a degree as the probe measures; ends every fault of the files. */
        void says(double celsius) throws IOException {
            int register = (int) Math.round(celsius * 16);
            int millidegrees = register * 1000 / 16;
            put(files().get(0), millidegrees + "\n");
            put(files().get(1), w1Slave(register, millidegrees));
            letGo();
        }

        /** Empty files: what newer kernels give for a wrong checksum, a lost probe and a shorted bus. */
        void isEmpty() throws IOException {
            for (Path file : files()) put(file, "");
        }

        void isGarbage() throws IOException {
            for (Path file : files()) put(file, "\u0000\u00ffnonsense 12 \n\n");
        }

        /** Whoever reads it waits without end, as when the bus master's driver hangs. */
        void hangs() throws IOException, InterruptedException {
            for (Path file : files()) {
                Path pipe = Files.createTempFile(staging, "pipe-", "");
                Files.delete(pipe);
                Jar.tool(staging, "mkfifo", pipe.toString());
                // A second name, by which it can be let go once another file has taken its place.
                hanging.add(Files.createLink(staging.resolve(pipe.getFileName() + ".held"), pipe));
                Files.move(pipe, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
            }
        }

        /** Ends the waiting of a reader that hangs: it comes to the end of an empty file. */
        private void letGo() throws IOException {
            for (Path pipe : hanging) {
                new RandomAccessFile(pipe.toFile(), "rw").close();
                Files.delete(pipe);
            }
            hanging.clear();
        }

        /** The kernel has given the probe up: its folder is gone. */
        void vanishes() throws IOException {
            Files.delete(link);
            Files.move(folder, folder.resolveSibling("gone-" + folder.getFileName()));
        }

        /** The kernel has found it again. */
        void comesBack() throws IOException {
            Path gone = folder.resolveSibling("gone-" + folder.getFileName());
            if (Files.exists(gone)) Files.move(gone, folder);
            Files.createSymbolicLink(link, folder);
        }

        private void put(Path file, String text) throws IOException {
            Path fresh =
                    Files.writeString(Files.createTempFile(staging, "file-", ""), text, StandardCharsets.ISO_8859_1);
            Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    private static String w1Slave(int register, int millidegrees) {
        byte[] bytes = {(byte) register, (byte) (register >> 8), 0x4b, 0x46, 0x7f, (byte) 0xff, 0x0c, 0x10, 0};
        bytes[8] = (byte) crc(bytes);
        var text = new StringBuilder();
        for (byte each : bytes) text.append(String.format(Locale.ROOT, "%02x ", each));
        return text + String.format(Locale.ROOT, ": crc=%02x YES\n", bytes[8]) + text + "t=" + millidegrees + "\n";
    }

    /** Of the first eight bytes: polynomial x^8 + x^5 + x^4 + 1, least bit first, as data sheet 19-7487 says. */
    private static int crc(byte[] bytes) {
        int crc = 0;
        for (int i = 0; i < 8; i++) {
            crc ^= bytes[i] & 0xff;
            for (int bit = 0; bit < 8; bit++) crc = (crc & 1) == 0 ? crc >> 1 : (crc >> 1) ^ 0x8c;
        }
        return crc;
    }
}
