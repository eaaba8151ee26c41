package gylewarden.plant;

/**
 * What acts on the chamber from outside over one step. Bare numbers, for a batch is some hundred thousand steps.
 *
 * @param roomCelsius temperature of the room in °C
 * @param fermentationWatts heat that the yeast gives to the beer, 0 or more
 * @param doorWattsPerKelvin what an open door adds between air and room, 0 while it is closed
 */
public record Surroundings(double roomCelsius, double fermentationWatts, double doorWattsPerKelvin) {
    public Surroundings {
        if (!Double.isFinite(roomCelsius)) throw new IllegalArgumentException("no such room: " + roomCelsius + " °C");
        Check.atLeast0("heat of fermentation", fermentationWatts);
        Check.atLeast0("conductance of the door", doorWattsPerKelvin);
    }
}
