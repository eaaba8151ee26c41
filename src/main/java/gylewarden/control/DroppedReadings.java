package gylewarden.control;

import gylewarden.control.Sample.Fault;

/** How many attempts gave nothing to believe since the daemon started, by kind. A value that jumped alone counts as impossible. */
public record DroppedReadings(long noAnswer, long badChecksum, long powerOnValue, long impossible) {
    public static DroppedReadings none() {
        return new DroppedReadings(0, 0, 0, 0);
    }

    public DroppedReadings plus(Fault fault) {
        return switch (fault) {
            case NO_ANSWER -> new DroppedReadings(noAnswer + 1, badChecksum, powerOnValue, impossible);
            case BAD_CHECKSUM -> new DroppedReadings(noAnswer, badChecksum + 1, powerOnValue, impossible);
            case POWER_ON_VALUE -> new DroppedReadings(noAnswer, badChecksum, powerOnValue + 1, impossible);
            case IMPOSSIBLE -> new DroppedReadings(noAnswer, badChecksum, powerOnValue, impossible + 1);
        };
    }

    public long of(Fault fault) {
        return switch (fault) {
            case NO_ANSWER -> noAnswer;
            case BAD_CHECKSUM -> badChecksum;
            case POWER_ON_VALUE -> powerOnValue;
            case IMPOSSIBLE -> impossible;
        };
    }

    public long total() {
        return noAnswer + badChecksum + powerOnValue + impossible;
    }
}
