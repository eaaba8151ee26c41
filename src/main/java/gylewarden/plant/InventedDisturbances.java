package gylewarden.plant;

import gylewarden.units.Temperature;
import java.util.Optional;

/** A room by mean, day and seed, a fermentation that follows its beer, and a door that stays shut. */
public final class InventedDisturbances implements Disturbances {
    private final Room room;
    private final Optional<Fermentation> fermentation;
    private final double volumeLitres;

    /**
     * @param volumeLitres of beer, above 0
     * @param seed of the room's wander
     */
    public InventedDisturbances(
            RoomParameters room, Optional<FermentationParameters> fermentation, double volumeLitres, long seed) {
        Check.above0("volume of beer in litres", volumeLitres);
        this.room = new Room(room, seed);
        this.fermentation = fermentation.map(Fermentation::new);
        this.volumeLitres = volumeLitres;
    }

    @Override
    public Surroundings at(double seconds, Temperature beer) {
        double watts = fermentation
                .map(yeast -> yeast.wattsPerLitre(seconds, beer) * volumeLitres)
                .orElse(0.0);
        return new Surroundings(room.celsius(seconds), watts, 0);
    }
}
