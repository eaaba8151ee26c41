package gylewarden.document;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** Whose word a chamber's target is: the config's until a person has named one. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class MandateTargetTest {
    private static final Optional<Temperature> NINETEEN = Optional.of(new Temperature(19));
    private static final Optional<Temperature> TWENTY_ONE = Optional.of(new Temperature(21));

    private static Mandate kept(Mandate mandate) throws Unreadable {
        return MandateDocument.read(MandateDocument.write(mandate));
    }

    @Test
    void a_pause_and_limits_leave_the_target_to_the_config() throws Unreadable {
        Mandate asked = Mandate.nothing()
                .under(NINETEEN)
                .paused(Optional.of(Duration.ofMinutes(30)))
                .withLimits(Mandate.Limits.none());
        assertEquals(NINETEEN, kept(asked).target());
        assertEquals(TWENTY_ONE, kept(asked).under(TWENTY_ONE).target());
        assertEquals(2, kept(asked).revision());
    }

    @Test
    void what_a_person_named_stays_whatever_the_config_says_and_none_is_a_word_too() throws Unreadable {
        Mandate asked = Mandate.nothing().under(NINETEEN).withTarget(Optional.of(new Temperature(17)));
        assertEquals(
                Optional.of(new Temperature(17)), kept(asked).under(TWENTY_ONE).target());
        Mandate off = Mandate.nothing().under(NINETEEN).withTarget(Optional.empty());
        assertEquals(Optional.empty(), kept(off).under(TWENTY_ONE).target());
        assertEquals(
                Optional.empty(),
                kept(Mandate.nothing().under(NINETEEN).left()).under(TWENTY_ONE).target());
    }

    @Test
    void of_one_that_was_kept_before_this_was_told_a_person_is_taken_to_have_named_it() throws Unreadable {
        assertTrue(
                MandateDocument.read("{\"revision\":3,\"targetCelsius\":17.0}").targetAsked());
        assertFalse(
                MandateDocument.read("{\"revision\":0,\"targetCelsius\":17.0}").targetAsked());
    }
}
