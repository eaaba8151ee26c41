package gylewarden.probe;

import gylewarden.control.Sample.Fault;
import java.util.HexFormat;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What the kernel prints of a 1-Wire thermometer: in {@code w1_slave} the nine bytes of its memory with the verdict on
 * their checksum and the temperature in m°C, in {@code temperature} the latter alone. Ranges and registers: data sheet
 * 19-7487.
 */
final class OneWireFrame {
    private static final int LENGTH = 9;
    private static final String BYTES = "((?:[0-9a-fA-F]{2} ){" + LENGTH + "})";
    private static final Pattern W1_SLAVE =
            Pattern.compile(BYTES + ": crc=[0-9a-fA-F]{2} (YES|NO)\\s*\\R" + BYTES + "t=(-?[0-9]{1,7})");

    private static final Pattern MILLIDEGREES = Pattern.compile("-?[0-9]{1,7}");
    private static final int POWER_ON_MILLIDEGREES = 85_000;
    private static final int LOWEST_MILLIDEGREES = -55_000;
    private static final int HIGHEST_MILLIDEGREES = 125_000;
    private static final int CONFIGURATION = 4;

    private OneWireFrame() {}

    /** The file {@code temperature}. */
    static Raw ofTemperature(String text) {
        if (text.isEmpty()) return Raw.fails(Fault.NO_ANSWER);
        if (!MILLIDEGREES.matcher(text).matches()) return Raw.fails(Fault.IMPOSSIBLE);
        return ofMillidegrees(Integer.parseInt(text));
    }

    /**
     * The file {@code w1_slave}.
     *
     * @param inSixteenths whether the first two bytes count sixteenths of a degree, as they do but for the families 10
     *     and 3b, where only the kernel knows how
     */
    static Raw ofW1Slave(String text, boolean inSixteenths) {
        if (text.isEmpty()) return Raw.fails(Fault.NO_ANSWER);
        Matcher lines = W1_SLAVE.matcher(text);
        if (!lines.matches()) return Raw.fails(Fault.IMPOSSIBLE);
        byte[] frame = HexFormat.ofDelimiter(" ").parseHex(lines.group(1).strip());
        if (lines.group(2).equals("NO") || !isFrame(frame)) return Raw.fails(Fault.BAD_CHECKSUM);
        Raw byKernel = ofMillidegrees(Integer.parseInt(lines.group(4)));
        if (!inSixteenths || byKernel instanceof Raw.Fails) return byKernel;
        double celsius = celsius(frame);
        return celsius * 1000 == POWER_ON_MILLIDEGREES ? Raw.fails(Fault.POWER_ON_VALUE) : inRange(celsius);
    }

    /** Whether a probe may have sent it. A bus that is shorted sends nine zeros, whose checksum is right. */
    static boolean isFrame(byte[] frame) {
        if (frame.length != LENGTH || Crc8.of(frame) != 0) return false;
        for (byte each : frame) if (each != 0) return true;
        return false;
    }

    /** In °C. Bits that the probe's resolution leaves undefined are taken as 0. */
    static double celsius(byte[] frame) {
        int unusedBits = 3 - ((frame[CONFIGURATION] >> 5) & 3);
        int register = (short) (((frame[1] & 0xFF) << 8) | (frame[0] & 0xFF));
        return ((register >> unusedBits) << unusedBits) / 16.0;
    }

    private static Raw ofMillidegrees(int millidegrees) {
        return millidegrees == POWER_ON_MILLIDEGREES ? Raw.fails(Fault.POWER_ON_VALUE) : inRange(millidegrees / 1000.0);
    }

    private static Raw inRange(double celsius) {
        return celsius * 1000 < LOWEST_MILLIDEGREES || celsius * 1000 > HIGHEST_MILLIDEGREES
                ? Raw.fails(Fault.IMPOSSIBLE)
                : Raw.says(celsius);
    }
}
