package gylewarden.app.demo;

import gylewarden.control.Side;
import gylewarden.simulation.Element;
import gylewarden.simulation.Fault;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;

/**
 * A fault that a visitor can inject and clear, with what to expect of it.
 *
 * @param id in addresses
 * @param group of the page
 * @param title what is broken
 * @param expect what the chamber will do, in some sentences; times are virtual ones
 */
record Knob(String id, String group, String title, String expect, Fault fault) {
    private static final String BEER = "Beer probe";
    private static final String AIR = "Air probe";
    private static final String COOLING = "Cooling";
    private static final String HEATING = "Heating";
    private static final String AROUND = "Around the chamber";

    /** In the order of the page. */
    static List<Knob> all() {
        return List.of(
                new Knob(
                        "beerProbeSilent",
                        BEER,
                        "It does not answer",
                        "After half a minute the probe is doubted, and what it decided about is released. The air probe stands"
                                + " in: the air is held where it last kept the beer, and the schedule stands still. Three good"
                                + " readings after you put it right, all is as before.",
                        new Fault.ProbeSilent(Element.BEER_PROBE)),
                new Knob(
                        "beerProbeGarbled",
                        BEER,
                        "Its frames arrive damaged",
                        "A damaged frame is never taken for a temperature. After half a minute without a good one the probe is"
                                + " doubted, and the air probe stands in.",
                        new Fault.ProbeGarbled(Element.BEER_PROBE)),
                new Knob(
                        "beerProbeHangs",
                        BEER,
                        "Reading it never ends",
                        "The loop does not wait for it. After half a minute the last reading is too old, the probe is doubted,"
                                + " and the air probe stands in.",
                        new Fault.ProbeHangs(Element.BEER_PROBE)),
                new Knob(
                        "beerProbeAtPowerOnValue",
                        BEER,
                        "It says 85 °C",
                        "That is what a probe says that has lost its power and not measured since. It is not believed, and no"
                                + " cooling starts because of it. After half a minute the air probe stands in.",
                        new Fault.ProbeAtPowerOnValue(Element.BEER_PROBE)),
                new Knob(
                        "beerProbeFallen",
                        BEER,
                        "It falls out of the beer",
                        "If the air is more than 3 °C from the beer, the jump gives it away within a quarter of an hour, and cold"
                                + " air never starts the heater. If air and beer are alike, nobody can tell: the chamber is"
                                + " steered by its air until they part. To see the difference, open the door in a hard frost for"
                                + " half an hour first. Put it back and press \"I have seen to it\" on the chamber's page, or"
                                + " wait for half an hour.",
                        new Fault.BeerProbeFallen()),
                new Knob(
                        "beerProbeStuck",
                        BEER,
                        "It says the same for ever",
                        "Nothing shows at first. Once a relay has run for so long that the beer must have moved, an hour or"
                                + " more, the probe is doubted because it does not answer.",
                        new Fault.ProbeStuck(Element.BEER_PROBE)),
                new Knob(
                        "beerProbeNoisy",
                        BEER,
                        "It trembles by half a degree",
                        "The relays switch more often than they need to. The compressor still keeps its minimum off time, and"
                                + " starts no more than six times an hour.",
                        new Fault.ProbeNoisy(Element.BEER_PROBE, new Kelvins(0.5))),
                new Knob(
                        "beerProbeDrifting",
                        BEER,
                        "It drifts by 0.2 K an hour",
                        "Nobody can see this from one probe: the chamber follows it, and the beer goes the other way. This is"
                                + " why probes are compared with a thermometer now and then.",
                        new Fault.ProbeDrifting(Element.BEER_PROBE, new Kelvins(0.2))),
                new Knob(
                        "airProbeSilent",
                        AIR,
                        "It does not answer",
                        "After half a minute it is doubted. The beer is still regulated by its own probe, more carefully, for"
                                + " the air's limits can no longer be watched.",
                        new Fault.ProbeSilent(Element.AIR_PROBE)),
                new Knob(
                        "airProbeGarbled",
                        AIR,
                        "Its frames arrive damaged",
                        "After half a minute without a good frame it is doubted; the beer probe goes on deciding.",
                        new Fault.ProbeGarbled(Element.AIR_PROBE)),
                new Knob(
                        "airProbeHangs",
                        AIR,
                        "Reading it never ends",
                        "After half a minute its last reading is too old and it is doubted; the beer probe goes on deciding.",
                        new Fault.ProbeHangs(Element.AIR_PROBE)),
                new Knob(
                        "airProbeAtPowerOnValue",
                        AIR,
                        "It says 85 °C",
                        "It is doubted after half a minute; the air's upper limit is not tripped by it.",
                        new Fault.ProbeAtPowerOnValue(Element.AIR_PROBE)),
                new Knob(
                        "airProbeStuck",
                        AIR,
                        "It says the same for ever",
                        "The beer is regulated as before. After an hour of cooling or heating without any change of the air,"
                                + " that side may be taken for one without effect.",
                        new Fault.ProbeStuck(Element.AIR_PROBE)),
                new Knob(
                        "airProbeNoisy",
                        AIR,
                        "It trembles by half a degree",
                        "Nothing but a broader band on the chart: the air decides about nothing while the beer is believed.",
                        new Fault.ProbeNoisy(Element.AIR_PROBE, new Kelvins(0.5))),
                new Knob(
                        "airProbeDrifting",
                        AIR,
                        "It drifts by 0.2 K an hour",
                        "The chart shows it. It matters only near the air's limits, or when the air stands in for the beer.",
                        new Fault.ProbeDrifting(Element.AIR_PROBE, new Kelvins(0.2))),
                new Knob(
                        "coolingWelded",
                        COOLING,
                        "The relay's contact is welded",
                        "From now on the chamber cools whatever the relay is told. Software can't open a welded contact: after"
                                + " the next run of the compressor the air stays cold, and within some hours the page says that"
                                + " it may be welded. Pulling the plug is what helps.",
                        new Fault.RelayWelded(Side.COOLING)),
                new Knob(
                        "coolingDead",
                        COOLING,
                        "The relay never closes",
                        "When cooling is wanted next, an hour of it without effect ends in \"cooling does not cool\"; then it is"
                                + " tried for at most 20 min an hour.",
                        new Fault.RelayDead(Side.COOLING)),
                new Knob(
                        "coolingSlow",
                        COOLING,
                        "The relay follows 20 s late",
                        "Hardly anything shows, for the shortest run of a compressor is minutes: it begins and ends a little later than"
                                + " the page says.",
                        new Fault.RelaySlow(Side.COOLING, Duration.ofSeconds(20))),
                new Knob(
                        "coolingUnwritable",
                        COOLING,
                        "The relay can't be written",
                        "It counts as energised until a release succeeds, so the heater stays off, and the page says so. A"
                                + " failed write is tried again and again.",
                        new Fault.RelayUnwritable(Side.COOLING)),
                new Knob(
                        "compressorDead",
                        COOLING,
                        "The compressor hums and cools nothing",
                        "As with a relay that never closes: an hour of cooling without effect, then an alarm and short trials.",
                        new Fault.CompressorDead()),
                new Knob(
                        "evaporatorIced",
                        COOLING,
                        "The evaporator is iced to a tenth",
                        "Cooling is weak and runs for long. After 6 h without a break the compressor rests for 20 min, so that"
                                + " ice can go; if the beer gets no nearer to its setpoint for 6 h, the page says so.",
                        new Fault.EvaporatorIced(0.1)),
                new Knob(
                        "heatingWelded",
                        HEATING,
                        "The relay's contact is welded",
                        "From now on the chamber heats whatever the relay is told, and cooling works against it. Where the air"
                                + " stays far off the beer after the heater's next run, that is an alarm of high priority; a belt"
                                + " as weak as these hardly shows in the air, and all that is seen is a compressor that runs more"
                                + " than it should. A thermal cut-out in the wiring is what keeps a house safe here.",
                        new Fault.RelayWelded(Side.HEATING)),
                new Knob(
                        "heatingDead",
                        HEATING,
                        "The relay never closes",
                        "When heating is wanted next, an hour of it without effect ends in \"heating does not warm\": released"
                                + " and latched until somebody has seen to it.",
                        new Fault.RelayDead(Side.HEATING)),
                new Knob(
                        "heatingSlow",
                        HEATING,
                        "The relay follows 20 s late",
                        "Hardly anything shows, for the shortest run of a heater is a minute: it begins and ends a little later than the"
                                + " page says.",
                        new Fault.RelaySlow(Side.HEATING, Duration.ofSeconds(20))),
                new Knob(
                        "heatingUnwritable",
                        HEATING,
                        "The relay can't be written",
                        "It counts as energised until a release succeeds, so the compressor stays off, and the page says so.",
                        new Fault.RelayUnwritable(Side.HEATING)),
                new Knob(
                        "heaterDead",
                        HEATING,
                        "The heater is burnt out",
                        "As with a relay that never closes: an hour of heating without effect, then released and latched.",
                        new Fault.HeaterDead()),
                new Knob(
                        "doorOpen",
                        AROUND,
                        "The door stands open",
                        "The air follows the room, the beer slowly follows the air, and one side runs against it.",
                        new Fault.DoorOpen(6)),
                new Knob(
                        "roomHot",
                        AROUND,
                        "A heat wave: the room at 38 °C",
                        "The compressor runs longer, and is weaker in the heat. Beer that was steady may rise a little.",
                        new Fault.RoomAt(new Temperature(38))),
                new Knob(
                        "roomCold",
                        AROUND,
                        "A hard frost: the room at -5 °C",
                        "The heater works for the beer. If it is too weak the beer sinks, and the page says that the setpoint is"
                                + " not reached.",
                        new Fault.RoomAt(new Temperature(-5))),
                new Knob(
                        "mainsAway",
                        AROUND,
                        "The mains are away",
                        "Nothing is cooled or heated, and this chamber's loop stands still: the page says how old its values"
                                + " are. When the mains are back, the log says how long it stood still, the compressor waits for"
                                + " its minimum off time, and the chart keeps its hole.",
                        new Fault.MainsAway()));
    }
}
