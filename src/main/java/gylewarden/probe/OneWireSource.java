package gylewarden.probe;

import gylewarden.control.Sample.Fault;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * One 1-Wire thermometer in the kernel's tree. Each attempt looks for its folder anew, so a probe that was unplugged is
 * there again as soon as the kernel has found it. Newer kernels show a bad checksum, a lost probe and a shorted bus all
 * alike, as empty files.
 */
public final class OneWireSource implements Source {
    private final Path root;
    private final String address;

    /**
     * @param root such as {@code /sys/bus/w1/devices}
     * @param address family and serial number, such as {@code 28-0316a2791001}
     */
    public OneWireSource(Path root, String address) {
        this.root = root;
        this.address = address;
    }

    /** The bus master where the kernel's link tells, else the tree; a probe that is not there yet waits for nobody. */
    @Override
    public String bus() {
        try {
            Path folder = root.resolve(address).toRealPath();
            for (Path each : folder) if (each.toString().startsWith("w1_bus_master")) return root + " " + each;
            return root.toString();
        } catch (IOException notThere) {
            return root + " " + address;
        }
    }

    @Override
    public Raw read() {
        Path folder = root.resolve(address);
        String temperature = textOrEmpty(folder.resolve("temperature"));
        if (!temperature.isEmpty()) return OneWireFrame.ofTemperature(temperature);
        try {
            return OneWireFrame.ofW1Slave(SmallFile.read(folder.resolve("w1_slave")), countsSixteenths());
        } catch (IOException noAnswer) {
            return Raw.fails(Fault.NO_ANSWER);
        }
    }

    private boolean countsSixteenths() {
        return !address.startsWith("10-") && !address.startsWith("3b-");
    }

    /** An error of the device in one file is no answer yet: the other file may know more. */
    private static String textOrEmpty(Path path) {
        try {
            return Files.exists(path) ? SmallFile.read(path) : "";
        } catch (IOException failed) {
            return "";
        }
    }
}
