package gylewarden.link;

import java.util.Optional;
import java.util.Set;

/** One connection, used once: when it has ended, a new one takes its place. No call waits for the network. */
interface Connection {
    /** What a connection tells, on a thread of its own. */
    interface Listener {
        /** It stands. */
        void opened();

        /** It could not be made, or has ended. */
        void ended(String why);

        /** @param failure why it is not known that the message came */
        void delivered(long number, Optional<String> failure);

        /** @param topic that the broker does not let us read */
        void refused(String topic, String why);

        void heard(Heard heard);
    }

    /** Begins to connect. */
    @FunctionalInterface
    interface Maker {
        Connection begin(Listener listener);
    }

    /** @param number by which {@link Listener#delivered} tells of it */
    void send(long number, Message message);

    void subscribe(Set<String> topics);

    /** Begins to end it, with the will if it stands. */
    void giveUp();

    /** Begins to end it for good, with the will's farewell if it stands and there is one, else as {@link #giveUp}. */
    void close();

    /** Whether nothing of it is left after one of these: no thread, no socket. */
    boolean isGone();
}
