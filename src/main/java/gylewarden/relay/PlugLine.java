package gylewarden.relay;

import gylewarden.control.Contact;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.util.Optional;
import java.util.function.Consumer;

/** The way to a plug that is told over a network what to do, and tells what it does. */
public interface PlugLine {
    /**
     * From now on.
     *
     * @param heard told what the plug says of itself at that moment, never what somebody has kept of it; returns at once
     */
    void listen(Consumer<Contact> heard);

    /** When the connection that stands now was made, which tells it from every other; empty while there is none. */
    Optional<Uptime> connection();

    /** What is wrong with the way there, in words; empty if nothing is known to be. */
    Optional<String> trouble();

    /**
     * Says it once, over the connection that stands now or not at all, and never again by itself.
     *
     * @throws IOException in words, if it is not known to have gone out
     */
    void say(Contact contact) throws IOException;
}
