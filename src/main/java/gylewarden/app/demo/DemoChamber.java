package gylewarden.app.demo;

import gylewarden.control.Rules;
import gylewarden.plant.Disturbances;
import gylewarden.plant.FermentationParameters;
import gylewarden.plant.InventedDisturbances;
import gylewarden.plant.PlantParameters;
import gylewarden.plant.PlantParameters.Place;
import gylewarden.plant.RoomParameters;
import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/**
 * A virtual chamber of the demo: invented, nothing of it was measured. A chamber's run begins when its wort goes in.
 *
 * @param yeast once it is pitched; its lag counts from the beginning of the run
 * @param seed of all that is random about it
 */
record DemoChamber(
        String id,
        String name,
        PlantParameters plant,
        RoomParameters room,
        FermentationParameters yeast,
        Rules rules,
        long seed) {
    static final String GARAGE = "garage";
    static final String CELLAR = "cellar";

    static List<DemoChamber> all() {
        return List.of(garage(), cellar());
    }

    /** A small upright fridge with an ale; in a garage that is colder than the beer, so it is heated as well. */
    private static DemoChamber garage() {
        var plant = new PlantParameters(
                new Temperature(23.5),
                PlantParameters.Fitted.ALL,
                new PlantParameters.Beer(20, 41_000, 41_000, 21, 165),
                new PlantParameters.Vessel(2_300, 16, 0.54, 3.1),
                new PlantParameters.Air(3_300, 9.5, 11, 0.35),
                new PlantParameters.Lining(21_000, 1.05),
                new PlantParameters.Evaporator(1_700),
                new PlantParameters.Compressor(95, 35, 0.02, new Temperature(-10), 0.009, 1.7, 7),
                new PlantParameters.Heater(30, 0.65),
                new PlantParameters.BeerProbe(Place.WELL, 80, 0.02, 0.45),
                new PlantParameters.AirProbe(55),
                new PlantParameters.Sampling(0.02, 10, 0.0625));
        return new DemoChamber(
                GARAGE,
                "Garage fridge",
                plant,
                new RoomParameters(new Temperature(11.5), new Kelvins(2.5), 16, new Kelvins(0.8)),
                new FermentationParameters(0.083, Duration.ofHours(15), 0.12, 0.9, new Temperature(18.5)),
                rules(20, 95, 30),
                11);
    }

    /** A chest freezer with a lager, in a cellar that is the same all the year. */
    private static DemoChamber cellar() {
        var plant = new PlantParameters(
                new Temperature(11.5),
                PlantParameters.Fitted.ALL,
                new PlantParameters.Beer(24, 49_000, 49_000, 18, 150),
                new PlantParameters.Vessel(3_400, 17, 0.52, 3.4),
                new PlantParameters.Air(3_900, 12, 13, 0.25),
                new PlantParameters.Lining(30_000, 0.9),
                new PlantParameters.Evaporator(2_600),
                new PlantParameters.Compressor(120, 40, 0.02, new Temperature(-10), 0.009, 1.8, 3),
                new PlantParameters.Heater(35, 0.6),
                new PlantParameters.BeerProbe(Place.TAPED, 140, 0.06, 0.5),
                new PlantParameters.AirProbe(60),
                new PlantParameters.Sampling(0.02, 10, 0.0625));
        return new DemoChamber(
                CELLAR,
                "Cellar chest",
                plant,
                new RoomParameters(new Temperature(13.5), new Kelvins(0.4), 18, new Kelvins(0.3)),
                new FermentationParameters(0.09, Duration.ofHours(24), 0.075, 0.42, new Temperature(10)),
                rules(24, 120, 35),
                12);
    }

    private static Rules rules(double litres, double coolingWatts, double heatingWatts) {
        return Rules.defaults()
                .with(new Rules.Vessel(Optional.of(litres), Optional.of(coolingWatts), Optional.of(heatingWatts)));
    }

    /** Of one run. */
    Disturbances disturbances() {
        return new InventedDisturbances(room, Optional.of(yeast), plant.beer().volumeLitres(), seed);
    }

    /** Of a run that begins when the yeast has done its work. */
    Disturbances quiet() {
        return new InventedDisturbances(room, Optional.empty(), plant.beer().volumeLitres(), seed);
    }

    /** The same chamber with beer, air and evaporator at another temperature to begin with. */
    DemoChamber startingAt(Temperature start) {
        var other = new PlantParameters(
                start,
                plant.fitted(),
                plant.beer(),
                plant.vessel(),
                plant.air(),
                plant.lining(),
                plant.evaporator(),
                plant.compressor(),
                plant.heater(),
                plant.beerProbe(),
                plant.airProbe(),
                plant.sampling());
        return new DemoChamber(id, name, other, room, yeast, rules, seed);
    }
}
