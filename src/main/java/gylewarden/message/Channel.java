package gylewarden.message;

import gylewarden.journal.Letter;

/**
 * One way to reach people. It may be asked to carry the same letter again, for nobody knows whether it arrived when the daemon
 * was killed in between; the letter's id goes with it.
 */
public interface Channel {
    /** Its name in the config. */
    String name();

    /**
     * Carries a letter, whose texts are in the reader's unit. Waits for the network, half a minute at most; called by one thread
     * at a time. Never throws for what the network or the other side does.
     */
    Delivery carry(Letter letter);
}
