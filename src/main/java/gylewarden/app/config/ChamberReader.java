package gylewarden.app.config;

import gylewarden.control.Rules;
import gylewarden.control.Rules.CoolingBy;
import gylewarden.control.Rules.Fitted;
import gylewarden.units.Range;
import gylewarden.units.Temperature;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Reads a {@code [[chamber]]}; whether the probes and relays that it names exist is checked in {@link Wires}. */
final class ChamberReader {
    private static final int LONGEST_NAME = 60;

    private ChamberReader() {}

    static Entry<ChamberConfig> read(Table table) {
        Optional<String> id = Entry.id(table, "garage");
        Optional<String> name = table.text("name");
        if (name.isPresent() && name.get().length() > LONGEST_NAME)
            table.mistake("name", "at most " + LONGEST_NAME + " letters");
        table.require("beer_probe", "the id of the probe that measures the beer");
        Optional<String> beer = table.text("beer_probe");
        Optional<String> secondBeer = table.text("second_beer_probe");
        Optional<String> air = table.text("air_probe");
        Optional<String> room = table.text("room_probe");
        List<String> watch = table.texts("watch").orElse(List.of());
        Optional<String> cooling = table.text("cooling");
        Optional<String> heating = table.text("heating");
        table.requireOne(List.of("cooling", "heating"), "name the relay of at least one of them");
        CoolingBy by = ControlKeys.coolingBy(table);
        Fitted fitted = cooling.isEmpty() && heating.isEmpty()
                ? Fitted.both()
                : new Fitted(cooling.map(relay -> by), heating.isPresent(), air.isPresent());
        Rules rules = ControlKeys.read(table, fitted, by);
        Optional<Temperature> target = target(table, rules.limits());
        Set<String> idle = idle(table, fitted);
        table.finish();
        Optional<ChamberConfig> chamber = id.flatMap(known -> beer.map(probe -> new ChamberConfig(
                known,
                name.orElse(known),
                target,
                new ChamberConfig.Probes(probe, secondBeer, air, room, watch),
                cooling,
                heating,
                rules,
                idle)));
        return new Entry<>(table, id, chamber);
    }

    private static Optional<Temperature> target(Table table, Rules.Limits limits) {
        if (!limits.beerMin().isBelow(limits.beerMax())) {
            table.know("target");
            return Optional.empty();
        }
        return table.temperature("target", Range.of(limits.beerMin(), limits.beerMax()), new Temperature(19));
    }

    private static Set<String> idle(Table table, Fitted fitted) {
        Set<String> idle = new TreeSet<>();
        if (fitted.cooling().isEmpty()) idle.addAll(ControlKeys.OF_COOLING);
        if (!fitted.heating()) idle.addAll(ControlKeys.OF_HEATING);
        if (fitted.cooling().isEmpty() || !fitted.heating()) idle.add("changeover");
        idle.removeIf(key -> !table.has(key));
        return idle;
    }
}
