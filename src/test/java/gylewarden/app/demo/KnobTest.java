package gylewarden.app.demo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.simulation.Fault;
import java.util.Arrays;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class KnobTest {
    @Test
    void every_fault_that_can_come_by_itself_has_a_knob() {
        Set<Class<?>> turned =
                Knob.all().stream().map(knob -> knob.fault().getClass()).collect(Collectors.toSet());
        Set<Class<?>> faults = Arrays.stream(Fault.class.getPermittedSubclasses())
                .filter(kind -> kind != Fault.OfTheFitting.class)
                .collect(Collectors.toSet());
        assertEquals(faults, turned);
    }

    @Test
    void no_two_knobs_have_one_name_or_do_the_same() {
        long ids = Knob.all().stream().map(Knob::id).distinct().count();
        long faults = Knob.all().stream().map(Knob::fault).distinct().count();
        assertEquals(Knob.all().size(), ids);
        assertEquals(Knob.all().size(), faults);
    }

    @Test
    void each_says_in_sentences_what_to_expect() {
        for (Knob knob : Knob.all()) {
            assertTrue(knob.expect().endsWith("."), knob::id);
            assertTrue(knob.expect().length() >= 60, () -> knob.id() + " says little");
        }
    }
}
