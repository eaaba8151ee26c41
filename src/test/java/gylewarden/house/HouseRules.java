package gylewarden.house;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.AccessTarget;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import com.tngtech.archunit.library.dependencies.SlicesRuleDefinition;
import java.time.Clock;
import java.time.InstantSource;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;

/**
 * The rules of docs/architecture.md about the classes under one root package. The root is handed in so that the rules can
 * also be shown a house that breaks them: a rule that has never failed has proved nothing.
 */
record HouseRules(String root, Floors floors) {
    /** The clock's promise lives on floor 0, and its one implementation reads the machine's; nobody else below floor 2 does. */
    private static final String MONOTONIC_CLOCK = "MonotonicClock";

    private static final Set<String> READS_THE_MACHINE = Set.of(
            "java.lang.System.nanoTime",
            "java.lang.System.currentTimeMillis",
            "java.lang.System.getenv",
            "java.lang.System.getProperty",
            "java.lang.System.exit",
            "java.lang.Math.random",
            "java.util.UUID.randomUUID",
            "java.time.ZoneId.systemDefault");

    ArchRule onlyDownstairs() {
        return classes()
                .that(resideInAnyPackage(root + ".."))
                .should(new ArchCondition<>("import only from the floors below") {
                    @Override
                    public void check(JavaClass from, ConditionEvents events) {
                        if (floors.floor(roomOf(from)).isEmpty())
                            events.add(SimpleConditionEvent.violated(
                                    from, from.getName() + " is in no package of docs/architecture.md"));
                        for (var dependency : from.getDirectDependenciesFromSelf()) {
                            JavaClass to = dependency.getTargetClass();
                            if (inHouse(to) && !floors.mayImport(roomOf(from), roomOf(to)))
                                events.add(SimpleConditionEvent.violated(from, dependency.getDescription()));
                        }
                    }
                })
                .allowEmptyShould(true);
    }

    ArchRule noCycles() {
        return SlicesRuleDefinition.slices()
                .matching(root + ".(*)..")
                .should()
                .beFreeOfCycles()
                .allowEmptyShould(true);
    }

    ArchRule pureFloorsDoNoInputOrOutput() {
        return noClasses()
                .that(livesOn(0, Floors.PURE))
                .should()
                .dependOnClassesThat(resideInAnyPackage(
                        "java.io..",
                        "java.nio..",
                        "java.net..",
                        "java.sql..",
                        "java.util.logging..",
                        "org.slf4j..",
                        "ch.qos.logback.."))
                .orShould()
                .dependOnClassesThat(named(Process.class, ProcessBuilder.class, Runtime.class))
                .allowEmptyShould(true);
    }

    ArchRule pureFloorsStartNoThread() {
        return noClasses()
                .that(livesOn(0, Floors.PURE))
                .should()
                .dependOnClassesThat(resideInAnyPackage("java.util.concurrent.."))
                .orShould()
                .dependOnClassesThat(named(Thread.class, java.util.Timer.class, ThreadLocal.class))
                .allowEmptyShould(true);
    }

    ArchRule pureFloorsReadNoClock() {
        return noClasses()
                .that(livesOn(0, Floors.PURE))
                .and(describe(
                        "are not the monotonic clock",
                        type -> !type.getSimpleName().equals(MONOTONIC_CLOCK)))
                .should()
                .accessTargetWhere(describe("the target reads the machine", HouseRules::readsTheMachine))
                .orShould()
                .dependOnClassesThat(named(Clock.class, InstantSource.class))
                .orShould()
                .dependOnClassesThat(describe(
                        "are the monotonic clock",
                        type -> inHouse(type) && type.getSimpleName().equals(MONOTONIC_CLOCK)))
                .allowEmptyShould(true);
    }

    ArchRule outerRoomsTouchNoHardware() {
        return noClasses()
                .that(livesOn(4, 4))
                .should(new ArchCondition<>("touch a probe or relay that is not simulated") {
                    @Override
                    public void check(JavaClass from, ConditionEvents events) {
                        for (var dependency : from.getDirectDependenciesFromSelf()) {
                            JavaClass to = dependency.getTargetClass();
                            boolean hardware =
                                    inHouse(to) && Set.of("probe", "relay").contains(roomOf(to));
                            boolean allowed = roomOf(from).equals("simulation") && simulatedOrPromise(to);
                            if (hardware && !allowed)
                                events.add(SimpleConditionEvent.satisfied(from, dependency.getDescription()));
                        }
                    }
                })
                .allowEmptyShould(true);
    }

    /** Each library is known where it is needed and nowhere else; the keys are packages of libraries. */
    List<ArchRule> librariesStayInTheirRooms() {
        return Map.of(
                        "com.pi4j", Set.of("relay", "app"),
                        "org.tomlj", Set.of("app"),
                        "picocli", Set.of("app"),
                        "java.sql", Set.of("store"),
                        "org.jdbi", Set.of("store"),
                        "org.sqlite", Set.of("store"),
                        "io.javalin", Set.of("web"),
                        "org.eclipse.jetty", Set.of("web"),
                        "org.eclipse.paho", Set.of("link"))
                .entrySet()
                .stream()
                .map(library -> noClasses()
                        .that(describe(
                                "are in none of " + library.getValue(),
                                type -> inHouse(type) && !library.getValue().contains(roomOf(type))))
                        .should()
                        .dependOnClassesThat(resideInAnyPackage(library.getKey() + ".."))
                        .allowEmptyShould(true))
                .map(ArchRule.class::cast)
                .toList();
    }

    ArchRule onlyTheCommandLinePrints() {
        return noClasses()
                .that(describe(
                        "are not in app", type -> inHouse(type) && !roomOf(type).equals("app")))
                .should()
                .accessTargetWhere(describe("the target is standard output or error", access -> {
                    AccessTarget target = access.getTarget();
                    boolean stream = target.getOwner().isEquivalentTo(System.class)
                            && Set.of("out", "err").contains(target.getName());
                    return stream || target.getName().equals("printStackTrace");
                }))
                .allowEmptyShould(true);
    }

    /** Loggers are static by custom. A private array is taken for a table of constants: nobody else can write to it. */
    ArchRule nothingStaticChanges() {
        return fields().that()
                .areStatic()
                .and(describe(
                        "are written by a person",
                        field -> !field.getModifiers().contains(JavaModifier.SYNTHETIC)
                                && !field.getName().startsWith("$")))
                .should(new ArchCondition<>("be constants") {
                    @Override
                    public void check(JavaField field, ConditionEvents events) {
                        if (!isConstant(field))
                            events.add(SimpleConditionEvent.violated(field, field.getDescription()));
                    }
                })
                .allowEmptyShould(true);
    }

    private static boolean isConstant(JavaField field) {
        if (!field.getModifiers().contains(JavaModifier.FINAL)) return false;
        JavaClass type = field.getRawType();
        if (type.isArray()) return field.getModifiers().contains(JavaModifier.PRIVATE);
        boolean concreteCollection = !type.isInterface()
                && !type.isEnum()
                && (type.isAssignableTo(Collection.class) || type.isAssignableTo(Map.class));
        boolean concurrent = type.getPackageName().startsWith("java.util.concurrent") && !type.isEnum();
        Predicate<Class<?>> is = type::isAssignableTo;
        boolean changing = List.<Class<?>>of(
                        StringBuilder.class,
                        ThreadLocal.class,
                        Thread.class,
                        java.util.Random.class,
                        java.util.BitSet.class)
                .stream()
                .anyMatch(is);
        return !concreteCollection && !concurrent && !changing;
    }

    private static boolean readsTheMachine(com.tngtech.archunit.core.domain.JavaAccess<?> access) {
        AccessTarget target = access.getTarget();
        String owner = target.getOwner().getName();
        if (READS_THE_MACHINE.contains(owner + "." + target.getName())) return true;
        if (owner.startsWith("java.time.") && target.getName().equals("now")) return true;
        boolean dice = Set.of("java.util.Random", "java.util.SplittableRandom").contains(owner);
        return dice
                && target instanceof AccessTarget.ConstructorCallTarget constructor
                && constructor.getRawParameterTypes().isEmpty();
    }

    private static boolean simulatedOrPromise(JavaClass type) {
        JavaClass outermost = type;
        while (outermost.getEnclosingClass().isPresent())
            outermost = outermost.getEnclosingClass().get();
        return outermost.isInterface() || outermost.getSimpleName().startsWith("Simulated");
    }

    private static DescribedPredicate<JavaClass> named(Class<?>... types) {
        return describe(
                "are one of " + List.of(types), type -> List.of(types).stream().anyMatch(type::isEquivalentTo));
    }

    private DescribedPredicate<JavaClass> livesOn(int lowest, int highest) {
        return describe(
                "live on floor " + lowest + " to " + highest,
                type -> inHouse(type)
                        && floors.floor(roomOf(type))
                                .filter(floor -> floor >= lowest && floor <= highest)
                                .isPresent());
    }

    private boolean inHouse(JavaClass type) {
        return type.getPackageName().startsWith(root + ".");
    }

    /** The first name after the root; a package below a room belongs to it. Empty for a class at the root itself. */
    private String roomOf(JavaClass type) {
        if (!inHouse(type)) return "";
        return type.getPackageName().substring(root.length() + 1).split("\\.", 2)[0];
    }
}
