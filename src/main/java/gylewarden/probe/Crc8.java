package gylewarden.probe;

/**
 * The checksum of 1-Wire: x⁸ + x⁵ + x⁴ + 1, least significant bit first, start value 0. Source: Maxim application
 * note 27.
 */
final class Crc8 {
    private static final int REFLECTED_POLYNOMIAL = 0x8C;

    private Crc8() {}

    /** @return 0 to 255; 0 over bytes that end with their own checksum */
    static int of(byte[] bytes) {
        int crc = 0;
        for (byte each : bytes) {
            crc ^= each & 0xFF;
            for (int bit = 0; bit < 8; bit++) crc = (crc & 1) == 0 ? crc >> 1 : (crc >> 1) ^ REFLECTED_POLYNOMIAL;
        }
        return crc;
    }
}
