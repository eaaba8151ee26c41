package gylewarden.control;

import gylewarden.units.Kelvins;
import gylewarden.units.Temperature;
import java.util.List;
import java.util.Optional;

/**
 * Which absolute limits are broken now. Each has a way back of its own, so that a value at a limit does not chatter.
 *
 * @param beerCold beer below the batch's minimum
 * @param beerHot beer above the batch's maximum
 * @param nearFreezing beer within 1 K of its freezing point
 * @param freezing beer so near to freezing that heating is right even in a crash
 * @param airCold air, or another watched place, at its floor
 * @param airHot air, or another watched place, at its ceiling
 * @param roomCold the compressor stands too cold
 */
public record LimitWatch(
        boolean beerCold,
        boolean beerHot,
        boolean nearFreezing,
        boolean freezing,
        boolean airCold,
        boolean airHot,
        boolean roomCold) {
    /** A probe in the middle of the vessel may read this much while ice forms at the wall. */
    public static final Kelvins ABOVE_FREEZING = new Kelvins(1);

    private static final Kelvins HEAT_ABOVE_FREEZING = new Kelvins(0.5);
    private static final Kelvins BEER_BACK = new Kelvins(0.3);
    private static final Kelvins AIR_BACK = new Kelvins(3);
    private static final Temperature ROOM_LEAST = new Temperature(5);
    private static final Kelvins ROOM_BACK = new Kelvins(1);

    public static LimitWatch atStart() {
        return new LimitWatch(false, false, false, false, false, false, false);
    }

    /**
     * The temperatures that a limit looks at.
     *
     * @param believed of the probes that are believed
     * @param complete whether that is all of them; while it is not, nobody knows that a broken limit is mended
     */
    record Group(List<Temperature> believed, boolean complete) {}

    /** @param air the air probe and all other watched places */
    record Temperatures(Group beer, Group air, Group room) {}

    /** @param freezingPoint of this beer; water's until its alcohol is known */
    LimitWatch observing(Temperatures now, Rules.Limits limits, Temperature freezingPoint) {
        LimitWatch next = new LimitWatch(
                below(now.beer(), limits.beerMin(), BEER_BACK, beerCold),
                above(now.beer(), limits.beerMax(), BEER_BACK, beerHot),
                below(now.beer(), freezingPoint.plus(ABOVE_FREEZING), BEER_BACK, nearFreezing),
                below(now.beer(), freezingPoint.plus(HEAT_ABOVE_FREEZING), HEAT_ABOVE_FREEZING, freezing),
                below(now.air(), limits.airMin(), AIR_BACK, airCold),
                above(now.air(), limits.airMax(), AIR_BACK, airHot),
                below(now.room(), ROOM_LEAST, ROOM_BACK, roomCold));
        return next.equals(this) ? this : next;
    }

    /** Broken by any of the values; once broken, until all of them are known to be back by {@code back}. */
    private static boolean below(Group group, Temperature limit, Kelvins back, boolean already) {
        Temperature edge = already ? limit.plus(back) : limit;
        for (int i = 0; i < group.believed().size(); i++)
            if (group.believed().get(i).isBelow(edge)) return true;
        return already && !group.complete();
    }

    private static boolean above(Group group, Temperature limit, Kelvins back, boolean already) {
        Temperature edge = already ? limit.minus(back) : limit;
        for (int i = 0; i < group.believed().size(); i++)
            if (group.believed().get(i).isAbove(edge)) return true;
        return already && !group.complete();
    }

    /** Whether a side must act without the wait against fighting. */
    boolean waivesWaiting() {
        return beerCold || beerHot || freezing;
    }

    /** Why a side may not run; empty if no limit is in its way. */
    Optional<Reason> forbids(Side side, Rules rules, Temperature freezingPoint, Optional<Temperature> room) {
        Rules.Limits limits = rules.limits();
        if (side == Side.COOLING) {
            if (nearFreezing) return Optional.of(new Reason.NearFreezing(freezingPoint.plus(ABOVE_FREEZING)));
            if (beerCold) return Optional.of(new Reason.BeerBeyondLimit(side, limits.beerMin()));
            if (airCold)
                return Optional.of(new Reason.AirBeyondLimit(
                        side, limits.airMin(), limits.airMin().plus(AIR_BACK)));
            if (roomCold && rules.fitted().hasCompressor())
                return Optional.of(new Reason.RoomTooCold(room.orElse(ROOM_LEAST)));
            return Optional.empty();
        }
        if (beerHot) return Optional.of(new Reason.BeerBeyondLimit(side, limits.beerMax()));
        if (airHot)
            return Optional.of(new Reason.AirBeyondLimit(
                    side, limits.airMax(), limits.airMax().minus(AIR_BACK)));
        return Optional.empty();
    }
}
