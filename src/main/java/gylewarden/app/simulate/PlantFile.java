package gylewarden.app.simulate;

import gylewarden.app.config.TomlFile;
import gylewarden.app.config.WrongFile;
import gylewarden.plant.FermentationParameters;
import gylewarden.plant.PlantParameters;
import gylewarden.plant.PlantParameters.Place;
import gylewarden.plant.RoomParameters;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * A virtual chamber as its TOML file describes it. What is not fitted needs no table.
 *
 * @param room for runs without recorded disturbances; 20 °C where the file says nothing
 * @param fermentation for runs without recorded disturbances; absent where the file says nothing
 */
record PlantFile(PlantParameters parameters, RoomParameters room, Optional<FermentationParameters> fermentation) {
    private static final Temperature USUAL = new Temperature(20);

    static PlantFile read(Path path) throws WrongFile {
        return of(TomlFile.read(path));
    }

    static PlantFile of(TomlFile file) throws WrongFile {
        PlantFile plant = new Reader(file).plant();
        file.root().finish();
        file.refuseMistakes();
        return plant;
    }

    private record Reader(TomlFile file) {
        PlantFile plant() {
            Optional<PlantParameters.Fitted> said = optional("fitted", Reader::fitted);
            PlantParameters.Fitted fitted = said.orElse(PlantParameters.Fitted.ALL);
            Optional<Temperature> start = optional("start", keys -> keys.celsius("celsius"));
            var parameters = new PlantParameters(
                    start.orElse(USUAL),
                    fitted,
                    table("beer", true, Reader::beer, new PlantParameters.Beer(1, 1, 1, 0, 0)),
                    table("vessel", true, Reader::vessel, new PlantParameters.Vessel(1, 0, 0, 0)),
                    table("air", true, Reader::air, new PlantParameters.Air(1, 0, 0, 0)),
                    table("lining", true, Reader::lining, new PlantParameters.Lining(1, 0)),
                    table("evaporator", true, Reader::evaporator, new PlantParameters.Evaporator(1)),
                    table("compressor", fitted.cooling(), Reader::compressor, noCompressor()),
                    table("heater", fitted.heating(), Reader::heater, new PlantParameters.Heater(0, 0)),
                    table("beer_probe", true, Reader::beerProbe, new PlantParameters.BeerProbe(Place.WELL, 1, 0, 0)),
                    table("air_probe", fitted.airProbe(), Reader::airProbe, new PlantParameters.AirProbe(60)),
                    table("probes", true, Reader::sampling, new PlantParameters.Sampling(0, 1, 0)));
            RoomParameters room = optional("room", Reader::room).orElse(RoomParameters.constant(USUAL));
            return new PlantFile(parameters, room, optional("fermentation", Reader::fermentation));
        }

        /** A table that must be there, unless it is about something that is not fitted. */
        private <T> T table(String name, boolean needed, Function<Keys, T> read, T withoutIt) {
            if (needed) file.root().require(name, "add the table [" + name + "]");
            return optional(name, read).orElse(withoutIt);
        }

        private <T> Optional<T> optional(String name, Function<Keys, T> read) {
            return file.root().table(name).map(table -> {
                var keys = new Keys(table);
                T value = read.apply(keys);
                keys.finish();
                return value;
            });
        }

        private static PlantParameters.Fitted fitted(Keys keys) {
            var fitted = new PlantParameters.Fitted(
                    keys.flagOrTrue("cooling"), keys.flagOrTrue("heating"), keys.flagOrTrue("air_probe"));
            if (!fitted.cooling() && !fitted.heating())
                keys.mistake("cooling", "a chamber needs at least one of cooling, heating");
            return fitted;
        }

        private static PlantParameters.Beer beer(Keys keys) {
            return new PlantParameters.Beer(
                    keys.above0("volume_litres"),
                    keys.above0("top_joules_per_kelvin"),
                    keys.above0("bottom_joules_per_kelvin"),
                    keys.atLeast0("mixing_watts_per_kelvin"),
                    keys.atLeast0("mixing_by_fermentation"));
        }

        private static PlantParameters.Vessel vessel(Keys keys) {
            return new PlantParameters.Vessel(
                    keys.above0("joules_per_kelvin"),
                    keys.atLeast0("to_beer_watts_per_kelvin"),
                    keys.share("bottom_share"),
                    keys.atLeast0("to_air_watts_per_kelvin"));
        }

        private static PlantParameters.Air air(Keys keys) {
            return new PlantParameters.Air(
                    keys.above0("joules_per_kelvin"),
                    keys.atLeast0("to_lining_watts_per_kelvin"),
                    keys.atLeast0("to_evaporator_watts_per_kelvin"),
                    keys.atLeast0("to_room_watts_per_kelvin"));
        }

        private static PlantParameters.Lining lining(Keys keys) {
            return new PlantParameters.Lining(
                    keys.above0("joules_per_kelvin"), keys.atLeast0("to_room_watts_per_kelvin"));
        }

        private static PlantParameters.Evaporator evaporator(Keys keys) {
            return new PlantParameters.Evaporator(keys.above0("joules_per_kelvin"));
        }

        private static PlantParameters.Compressor compressor(Keys keys) {
            return new PlantParameters.Compressor(
                    keys.atLeast0("watts"),
                    keys.above0("ramp_seconds"),
                    keys.atLeast0("per_kelvin_of_evaporator"),
                    keys.celsius("evaporator_reference_celsius"),
                    keys.atLeast0("per_kelvin_of_room"),
                    keys.above0("coefficient_of_performance"),
                    keys.atLeast0("standing_watts"));
        }

        private static PlantParameters.Compressor noCompressor() {
            return new PlantParameters.Compressor(0, 1, 0, new Temperature(-10), 0, 1, 0);
        }

        private static PlantParameters.Heater heater(Keys keys) {
            return new PlantParameters.Heater(keys.atLeast0("watts"), keys.share("share_into_vessel"));
        }

        private static PlantParameters.BeerProbe beerProbe(Keys keys) {
            return new PlantParameters.BeerProbe(
                    keys.word("place", List.of("well", "taped")).equals("taped") ? Place.TAPED : Place.WELL,
                    keys.above0("lag_seconds"),
                    keys.share("air_share"),
                    keys.share("top_share"));
        }

        private static PlantParameters.AirProbe airProbe(Keys keys) {
            return new PlantParameters.AirProbe(keys.above0("lag_seconds"));
        }

        private static PlantParameters.Sampling sampling(Keys keys) {
            return new PlantParameters.Sampling(
                    keys.atLeast0("noise_kelvin"),
                    keys.seconds("sample_seconds", 3600),
                    keys.atLeast0("resolution_kelvin"));
        }

        private static RoomParameters room(Keys keys) {
            return new RoomParameters(
                    keys.celsius("mean_celsius"),
                    new Kelvins(keys.atLeast0("daily_kelvin")),
                    keys.number("warmest_hour", 0, 24),
                    new Kelvins(keys.atLeast0("wander_kelvin")));
        }

        private static FermentationParameters fermentation(Keys keys) {
            return new FermentationParameters(
                    keys.number("extract_kg_per_litre", 0.001, 1),
                    Duration.ofSeconds(Math.round(3600 * keys.number("lag_hours", 0, 1000))),
                    keys.number("growth_per_hour", 0.001, 10),
                    keys.number("ceiling_watts_per_litre", 0.001, 100),
                    keys.celsius("reference_celsius"));
        }
    }
}
