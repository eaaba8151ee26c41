package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class UncaughtTest {
    private final List<Throwable> ending = new ArrayList<>();
    private final Uncaught uncaught = new Uncaught((thread, thrown) -> ending.add(thrown));

    private List<Throwable> endsOf(Throwable thrown, String... classes) {
        StackTraceElement[] frames = new StackTraceElement[classes.length];
        for (int i = 0; i < classes.length; i++) frames[i] = new StackTraceElement(classes[i], "run", "Any.java", 1);
        thrown.setStackTrace(frames);
        uncaught.uncaughtException(new Thread("any"), thrown);
        return ending;
    }

    /** As the broker's library did in its thread "MQTT Disc" when a silent connection was given up on a busy machine. */
    @Test
    void a_library_that_fails_in_a_thread_of_its_own_does_not_end_the_daemon() {
        assertEquals(
                List.of(),
                endsOf(
                        new NullPointerException("this.clientState is null"),
                        "org.eclipse.paho.mqttv5.client.internal.ClientComms",
                        "org.eclipse.paho.mqttv5.client.internal.ClientComms$DisconnectBG",
                        "java.lang.Thread"));
    }

    @Test
    void a_bug_of_ours_ends_it_also_where_a_library_calls_us() {
        var thrown = new IllegalStateException("ours");
        assertEquals(
                List.of(thrown),
                endsOf(
                        thrown,
                        "java.util.Map",
                        "gylewarden.link.Keeper",
                        "org.eclipse.paho.mqttv5.client.internal.CommsCallback"));
    }

    @Test
    void a_bug_of_ours_ends_it_also_where_a_library_has_wrapped_it() {
        var inner = new IllegalStateException("ours");
        inner.setStackTrace(
                new StackTraceElement[] {new StackTraceElement("gylewarden.web.Live", "tell", "Live.java", 1)});
        var outer = new RuntimeException(inner);
        assertEquals(List.of(outer), endsOf(outer, "org.eclipse.jetty.util.thread.QueuedThreadPool"));
    }

    @Test
    void memory_that_is_full_ends_it_whoever_asked_for_more() {
        var full = new OutOfMemoryError("heap");
        assertEquals(List.of(full), endsOf(full, "org.eclipse.paho.mqttv5.client.internal.CommsReceiver"));
    }

    @Test
    void what_nobody_can_tell_ends_it() {
        var traceless = new NullPointerException();
        assertEquals(List.of(traceless), endsOf(traceless));
    }
}
