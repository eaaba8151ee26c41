/**
 * The physics of one virtual chamber: beer, vessel, air, lining, evaporator, compressor and probes as nine states, and
 * the room and fermentation around them. Pure: no file, no clock, no thread, and every random number from a seed; which
 * relay is energised when is somebody else's business. Start at {@link gylewarden.plant.Plant}.
 */
package gylewarden.plant;
