package gylewarden.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.batch.Mandate;
import gylewarden.control.Condition;
import gylewarden.control.Contact;
import gylewarden.control.Decision;
import gylewarden.control.Doubt;
import gylewarden.control.Guard;
import gylewarden.control.Load;
import gylewarden.control.Reading;
import gylewarden.control.Readings;
import gylewarden.control.Reason;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.control.Target;
import gylewarden.schedule.ClockReading;
import gylewarden.schedule.ElapsedClock;
import gylewarden.units.Temperature;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class SentencesTest {
    private static final Uptime NOW = Uptime.ofSeconds(100_000);
    private static final Uptime SOON = NOW.plus(Duration.ofSeconds(130));
    private static final Temperature COLD = new Temperature(1);

    static Stream<Arguments> said() {
        return Stream.of(
                say(new Reason.Driving(Side.COOLING), "Cooling. Compressor on for 4 min; 0.6 °C above the setpoint."),
                say(new Reason.Driving(Side.HEATING), "Heating. Heater on for 0 s; 0.6 °C above the setpoint."),
                say(new Reason.WithinHysteresis(), "Steady, 0.6 °C above the setpoint."),
                say(new Reason.NotFitted(Side.COOLING), "Warm by 0.6 °C. This chamber has nothing that cools."),
                say(new Reason.NoTarget(), "No target is set; everything is off."),
                say(
                        new Reason.PlanLost(),
                        "What was asked here can't be read any more; everything is off until somebody sets a target or"
                                + " begins a batch."),
                say(new Reason.Paused(SOON), "Paused; everything is off for 2 min 10 s more."),
                say(
                        new Reason.SwitchedOff(),
                        "Switched off by a person; everything stays off until that is taken back."),
                say(new Reason.Commissioning(Optional.of(Side.COOLING)), "Commissioning: the compressor is tried."),
                say(
                        new Reason.Commissioning(Optional.empty()),
                        "Commissioning: everything is off, to see what the chamber does by itself."),
                say(new Reason.BackingOff(SOON), "Restarted too often; nothing is switched for 2 min 10 s more."),
                say(
                        new Reason.NotBelieved(Doubt.SILENT),
                        "Beer probe not believed: it does not answer. Everything is off."),
                say(
                        new Reason.HoldingAir(new Temperature(12), Doubt.STALE),
                        "Beer probe not believed: its bus hangs. The air is held near 12.0 °C instead."),
                say(
                        new Reason.KeepingAirFromCold(new Temperature(5), Doubt.SILENT),
                        "Beer probe not believed: it does not answer. Heating only to keep the air above 5.0 °C."),
                say(
                        new Reason.RepeatingDuty(0.124),
                        "No probe believed. Cooling runs 12 % of the time, as in the day before."),
                say(new Reason.NearFreezing(COLD), "Too near to freezing: no cooling below 1.0 °C."),
                say(
                        new Reason.BeerBeyondLimit(Side.COOLING, COLD),
                        "No cooling: the beer is below its minimum of 1.0 °C."),
                say(
                        new Reason.AirBeyondLimit(Side.COOLING, new Temperature(-2), COLD),
                        "No cooling until the air is back above 1.0 °C; it was below -2.0 °C."),
                say(new Reason.RoomTooCold(COLD), "The compressor stays off: the room is too cold for it, 1.0 °C."),
                say(new Reason.CoolingWithoutEffect(SOON), "Cooling had no effect; it is tried again in 2 min 10 s."),
                say(new Reason.HeatingLatched(), "Heating had no effect and stays off until a person says so."),
                say(
                        new Reason.NotFighting(Side.COOLING, SOON),
                        "Warm by 0.6 °C. Cooling waits, as the other side acted last; at most 2 min 10 s more."),
                say(new Reason.NoHeatingInCold(), "Warm by 0.6 °C. No heating in the cold: it comes by itself."),
                say(
                        new Reason.GentleCrash(SOON),
                        "Warm by 0.6 °C. Cooling goes in short bursts; the next in 2 min 10 s."),
                say(
                        new Reason.MustStayOff(Side.COOLING, SOON),
                        "Warm by 0.6 °C. The compressor must stay off 2 min 10 s more."),
                say(
                        new Reason.FinishingMinimumRun(Side.COOLING, SOON),
                        "Compressor finishes its minimum run, 2 min 10 s more; 0.6 °C above the setpoint."),
                say(
                        new Reason.ChangingOver(Side.COOLING, SOON),
                        "Warm by 0.6 °C. The compressor waits 2 min 10 s more after the other side."),
                say(
                        new Reason.EnoughStarts(SOON),
                        "Warm by 0.6 °C. The compressor has started often enough; again in 2 min 10 s."),
                say(
                        new Reason.Defrosting(SOON),
                        "Warm by 0.6 °C. The compressor rests after its long run; again in 2 min 10 s."),
                say(
                        new Reason.AfterAnotherCompressor(SOON),
                        "Warm by 0.6 °C. Another compressor has just started; this one in 2 min 10 s."),
                say(
                        new Reason.HeatingDutyUsed(SOON),
                        "Warm by 0.6 °C. The heater has had its share of the time; again in 2 min 10 s."),
                say(new Reason.AfterGap(), "The loop stood still, or the board slept; everything is released once."),
                say(
                        new Reason.MeasuringEffect(Side.COOLING, SOON),
                        "Warm by 0.6 °C. The compressor has shown no effect yet and rests 2 min 10 s more, so that it can"
                                + " be measured."),
                say(new Reason.CrashingSlowly(COLD), "Cold crash without an air probe, slowly: now towards 1.0 °C."),
                say(
                        new Reason.OtherSideNotReleased(Side.HEATING),
                        "The relay of the heater cannot be released; nothing else is switched on."));
    }

    private static Arguments say(Reason reason, String sentence) {
        return Arguments.of(reason, sentence);
    }

    @ParameterizedTest(name = "{1}")
    @MethodSource("said")
    void a_reason_is_said_like_this(Reason reason, String sentence) {
        assertEquals(sentence, new Sentences(Scale.CELSIUS).of(status(reason)));
    }

    @Test
    void every_kind_of_reason_has_its_sentence_here() {
        Set<Class<?>> tested = new HashSet<>();
        said().forEach(arguments -> tested.add(arguments.get()[0].getClass()));
        assertEquals(Set.of(Reason.class.getPermittedSubclasses()), tested);
    }

    @Test
    void a_reader_of_fahrenheit_gets_differences_without_32_added() {
        assertEquals(
                "Steady, 1.1 °F above the setpoint.",
                new Sentences(Scale.FAHRENHEIT).of(status(new Reason.WithinHysteresis())));
        assertEquals(
                "Too near to freezing: no cooling below 33.8 °F.",
                new Sentences(Scale.FAHRENHEIT).of(status(new Reason.NearFreezing(COLD))));
    }

    @ParameterizedTest
    @EnumSource(Condition.class)
    void what_needs_a_person_says_so_in_whole_sentences(Condition condition) {
        String words = Sentences.of(condition);
        assertTrue(words.length() > 20 && words.endsWith("."), words);
    }

    @ParameterizedTest
    @EnumSource(Doubt.class)
    void a_doubt_can_be_read_after_a_colon(Doubt doubt) {
        String words = Sentences.of(doubt);
        assertTrue(words.startsWith("it"), words);
    }

    private static ChamberStatus status(Reason reason) {
        Uptime since = NOW.minus(Duration.ofMinutes(4));
        boolean cools = reason instanceof Reason.Driving || reason instanceof Reason.FinishingMinimumRun;
        Load cooling = new Load(
                cools ? Contact.ENERGISED : Contact.RELEASED, since, since, Optional.empty(), Duration.ZERO, true);
        Load heating = new Load(Contact.RELEASED, since, since, Optional.empty(), Duration.ZERO, true);
        return new ChamberStatus(
                "garage",
                NOW,
                Readings.of(new Reading.Believed(new Temperature(18.6), NOW), Optional.empty()),
                Optional.of(Target.steady(new Temperature(18))),
                Decision.off(reason),
                new Guard(cooling, heating, List.of(), Optional.empty()),
                Rules.Fitted.both(),
                Optional.empty(),
                Optional.empty(),
                Mandate.nothing(),
                ElapsedClock.first(new ClockReading("boot", Duration.ofHours(1), Instant.EPOCH, true)),
                Set.of());
    }
}
