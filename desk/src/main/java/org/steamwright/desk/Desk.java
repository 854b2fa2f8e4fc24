package org.steamwright.desk;

import java.io.IOException;
import java.io.PrintStream;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.steamwright.desk.accounts.AccountDoorkeeper;
import org.steamwright.desk.accounts.AccountRoutes;
import org.steamwright.desk.accounts.FirstUser;
import org.steamwright.desk.accounts.LogIns;
import org.steamwright.desk.accounts.OfficeSettings;
import org.steamwright.desk.accounts.OwnerDoorkeeper;
import org.steamwright.desk.accounts.SecretBox;
import org.steamwright.desk.accounts.SettingsFile;
import org.steamwright.desk.clinic.ClinicRoutes;
import org.steamwright.desk.office.OfficeRoutes;
import org.steamwright.desk.path.CorrectionRoutes;
import org.steamwright.desk.path.PathRoutes;
import org.steamwright.desk.runs.RunsRoutes;
import org.steamwright.desk.shelf.Alarms;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.shelf.ResultsAtWork;
import org.steamwright.desk.shelf.Rules;
import org.steamwright.desk.tablet.LocalNetwork;
import org.steamwright.desk.tablet.OwnCertificate;
import org.steamwright.desk.tablet.Pairing;
import org.steamwright.desk.tablet.TabletDoorkeeper;
import org.steamwright.desk.tablet.TabletRoutes;
import org.steamwright.desk.today.TodayRoutes;
import org.steamwright.desk.training.TrainingGround;
import org.steamwright.desk.training.TrainingRoutes;
import org.steamwright.desk.web.DeskServer;
import org.steamwright.desk.web.Doorkeeper;
import org.steamwright.desk.web.FreeDisk;
import org.steamwright.desk.web.Limit;
import org.steamwright.desk.web.Route;
import org.steamwright.desk.web.WebRoutes;
import org.steamwright.filing.DueInRecord;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.accounts.AccountBook;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Starts the desk from the command line. */
@Command(
        name = "steamwright desk",
        mixinStandardHelpOptions = true,
        description = "The visit, the office and the clinic's page in a browser on this machine. Nothing leaves it.",
        sortOptions = false)
public final class Desk implements Callable<Integer> {

    private static final int USUAL_PORT = 8417;
    private static final int USUAL_TABLET_PORT = 8418;
    private static final long BYTES_PER_MEGABYTE = 1_000_000;

    /** How it ends: the numbers of docs/reference/exit-statuses.md, which a test of the whole house holds it to. */
    private static final int USAGE = 2;

    private static final int UNREADABLE = 3;
    private static final int SURROUNDINGS = 74;

    @Option(
            names = "--record",
            paramLabel = "FOLDER",
            description = "Folder of the record; made if it is not there. Usually steamwright-record.")
    private Path record = Path.of("steamwright-record");

    @Option(names = "--server", paramLabel = "ADDRESS", description = "PostgreSQL of an office: jdbc:postgresql://…")
    private Optional<String> server = Optional.empty();

    @Option(
            names = "--server-file",
            paramLabel = "FILE",
            description = "File with that address alone, so that a password in it stands in no list of processes.")
    private Optional<Path> serverFile = Optional.empty();

    @Option(names = "--port", paramLabel = "NUMBER", description = "Port to listen on; 0 for any that is free.")
    private int port = USUAL_PORT;

    @Option(
            names = "--name",
            paramLabel = "NAME",
            description =
                    "Your name, as it will stand in the journal. Asked once by the first page if it is not given.")
    private Optional<String> name = Optional.empty();

    @Option(
            names = "--users",
            description =
                    "For an office: every page but the log-in needs a user. The first one is told at the first start.")
    private boolean isWithUsers;

    @Option(
            names = "--settings",
            paramLabel = "FILE",
            description =
                    "Settings of an office: who vouches for users, who needs a second factor, limits. Needs --users.")
    private Optional<Path> settings = Optional.empty();

    @Option(
            names = "--demo",
            description =
                    "With the year of three invented clinics, in a record of its own that is thrown away at will.")
    private boolean isDemo;

    @Option(
            names = "--training",
            description =
                    "Only the training: invented visits on simulated machines, in a record of their own beside yours.")
    private boolean isTraining;

    @Option(
            names = "--tablet",
            description = "Let tablets of the local network in, by a code and over an encrypted port.")
    private boolean isWithTablets;

    @Option(
            names = "--tablet-port",
            paramLabel = "NUMBER",
            description = "Encrypted port for tablets; 0 for any that is free.")
    private int tabletPort = USUAL_TABLET_PORT;

    @Option(
            names = "--public",
            paramLabel = "ADDRESS",
            description =
                    "Address of the web server that stands before the desk of an office, such as https://desk.example.")
    private Optional<URI> publicAddress = Optional.empty();

    @Option(names = "--no-browser", description = "Print the address and open no browser.")
    private boolean isWithoutBrowser;

    private OfficeSettings officeSettings = OfficeSettings.USUAL;
    private final PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    private final PrintStream err = new PrintStream(System.err, true, StandardCharsets.UTF_8);

    Desk() {}

    /** Runs until it is stopped. The launcher asks for a warm-up when it makes its archive of classes. */
    public static void main(String[] arguments) {
        if (arguments.length > 1 && arguments[0].equals(WarmUp.WORD)) {
            quieten();
            WarmUp.run(Path.of(arguments[1]));
            System.exit(0);
        }
        System.exit(
                new CommandLine(new Desk()).setCommandName("steamwright desk").execute(arguments));
    }

    /** All routes, room by room. */
    public static List<Route> routes(Office office) {
        List<Route> routes = new ArrayList<>(WebRoutes.all());
        routes.addAll(TodayRoutes.all(office));
        routes.addAll(PathRoutes.all(office));
        routes.addAll(CorrectionRoutes.all(office));
        routes.addAll(RunsRoutes.all(office));
        routes.addAll(OfficeRoutes.all(office));
        routes.addAll(ClinicRoutes.all(office));
        return routes;
    }

    /** Libraries speak up only when something is wrong. */
    private static void quieten() {
        Logger.getLogger("").setLevel(Level.WARNING);
    }

    @Override
    @SuppressWarnings("try") // the work on results is only begun and ended here
    public Integer call() throws InterruptedException {
        quieten();
        if (settings.isPresent() && !isWithUsers) {
            err.println("steamwright: settings are those of an office with users; start with --users too");
            return USAGE;
        }
        if (isDemo && (server.isPresent() || serverFile.isPresent())) {
            err.println("steamwright: the invented year lies in a folder of its own; start --demo without a server");
            return USAGE;
        }
        if (server.isPresent() && serverFile.isPresent()) {
            err.println("steamwright: --server and --server-file say the same; name one of the two");
            return USAGE;
        }
        try {
            if (serverFile.isPresent()) {
                server = Optional.of(address(serverFile.get()));
            }
            officeSettings = settings.isPresent() ? SettingsFile.read(settings.get()) : OfficeSettings.USUAL;
        } catch (IOException wrong) {
            err.println("steamwright: " + wrong.getMessage());
            return UNREADABLE;
        }
        if (isTraining) {
            return training();
        }
        Path folder = isDemo ? Path.of("demo-desk") : record;
        Place place = server.map(address -> Place.server(address, folder)).orElseGet(() -> Place.folder(folder));
        try {
            if (isDemo && InventedOffice.make(folder, Clock.system(ZoneId.systemDefault()))) {
                out.println("An invented year of three clinics was made in " + folder + ".");
            }
        } catch (IOException failed) {
            err.println("steamwright: the invented year could not be made: " + failed.getMessage());
            return SURROUNDINGS;
        }
        try (Records records = Records.open(place, Clock.system(ZoneId.systemDefault()), DueInRecord.RULE)) {
            records.warnings().forEach(err::println);
            Office office = Office.with(records, new Rules(isWithUsers, officeSettings.isSignedOnlyWhenApproved()));
            try (ResultsAtWork results = ResultsAtWork.start(office.results());
                    TrainingGround ground = ground(folder, 0);
                    DeskServer desk = DeskServer.start(
                            setup(office, folder, ground, isWithTablets ? LocalNetwork.addresses() : List.of()))) {
                String address = "http://127.0.0.1:" + desk.port() + "/today";
                out.println("The desk is open at " + address + " - stop it with Ctrl+C.");
                if (isWithTablets) {
                    out.println("Tablets are let in at http://127.0.0.1:" + desk.port() + "/tablet");
                }
                if (!isWithoutBrowser) {
                    show(address);
                }
                desk.join();
            }
            return 0;
        } catch (RecordsException refused) {
            err.println("steamwright: " + refused.getMessage());
            return SURROUNDINGS;
        } catch (IOException failed) {
            err.println("steamwright: the desk could not be opened: " + failed.getMessage()
                    + " - if the port is taken, name another with --port.");
            return SURROUNDINGS;
        }
    }

    /** The address of the database in a file; it stands there alone. */
    static String address(Path file) throws IOException {
        if (!Files.isReadable(file)) {
            throw new IOException(file + ": there is no such file that this user may read");
        }
        String address = Files.readString(file, StandardCharsets.UTF_8).strip();
        if (!address.startsWith("jdbc:postgresql:") || address.lines().count() != 1) {
            throw new IOException(
                    file + ": one line is expected, such as jdbc:postgresql://localhost/steamwright?user=steamwright");
        }
        return address;
    }

    /** The training alone, without a desk of real visits beside it. */
    private int training() throws InterruptedException {
        try (TrainingGround ground = ground(record, port)) {
            ground.open(name.orElse("Trainee (invented)"));
            out.println("The training is open at " + ground.address() + " - stop it with Ctrl+C.");
            if (!isWithoutBrowser) {
                show(ground.address());
            }
            ground.join();
            return 0;
        } catch (RecordsException refused) {
            err.println("steamwright: " + refused.getMessage());
            return SURROUNDINGS;
        } catch (IOException failed) {
            err.println("steamwright: the training could not be opened: " + failed.getMessage()
                    + " - if the port is taken, name another with --port.");
            return SURROUNDINGS;
        }
    }

    static TrainingGround ground(Path record, int port) {
        return new TrainingGround(
                TrainingGround.beside(record),
                port,
                Clock.system(ZoneId.systemDefault()),
                new SecureRandom(),
                Desk::routes);
    }

    /**
     * What the options ask for.
     *
     * @param addresses of this laptop in its local network, for tablets
     */
    DeskServer.Setup setup(Office office, Path folder, TrainingGround ground, List<String> addresses)
            throws IOException {
        List<Route> routes = routes(office);
        if (!isWithUsers) {
            // the training has no log-in of its own: it is for the one at this machine
            routes.addAll(TrainingRoutes.door(ground));
        }
        Doorkeeper doorkeeper = doorkeeper(office, folder, routes);
        Optional<DeskServer.Network> network = Optional.empty();
        if (isWithTablets) {
            if (addresses.isEmpty()) {
                throw new IOException(
                        "this laptop is in no local network, so no tablet can reach it; start without --tablet");
            }
            int encryptedPort = tabletPort == 0 ? LocalNetwork.freePort() : tabletPort;
            OwnCertificate certificate = OwnCertificate.in(folder.resolve("desk"), addresses);
            if (!isWithUsers) {
                Pairing pairing = new Pairing(office.clock(), new SecureRandom());
                routes.addAll(TabletRoutes.all(
                        pairing,
                        addresses.stream()
                                .map(address -> "https://" + address + ":" + encryptedPort)
                                .toList(),
                        certificate.fingerprint()));
                doorkeeper = new TabletDoorkeeper(doorkeeper, pairing);
            }
            network = Optional.of(
                    new DeskServer.Network(addresses, encryptedPort, certificate.store(), certificate.secret()));
        }
        return new DeskServer.Setup.Maker(routes, doorkeeper, DeskServer.temporary())
                .port(port)
                .network(network)
                .publicAddress(publicAddress)
                .isInvented(() -> isInvented(office.records()))
                .alarm(() -> Alarms.of(office))
                .disk(FreeDisk.of(
                        List.of(office.records().place().folder(), DeskServer.temporary()),
                        BYTES_PER_MEGABYTE
                                * officeSettings
                                        .limits()
                                        .getOrDefault(Limit.FREE_MEGABYTES, Limit.FREE_MEGABYTES.usual())))
                .make();
    }

    /** Who asks: a user of the office, the one named at the start, or the owner of the laptop, who is asked once. */
    private Doorkeeper doorkeeper(Office office, Path folder, List<Route> routes) throws IOException {
        if (isWithUsers) {
            LogIns logIns = new LogIns(
                    new AccountBook(office.records()),
                    SecretBox.open(officeSettings.secondFactorKey().orElse(folder.resolve("accounts.key"))),
                    office.clock(),
                    officeSettings);
            logIns.started();
            FirstUser.make(logIns)
                    .ifPresent(password -> out.println("The first user is '" + FirstUser.NAME + "' with the password "
                            + password + " - it is told this once and has to be changed at the log-in."));
            routes.addAll(AccountRoutes.users(logIns, office));
            return new AccountDoorkeeper(logIns, office.clock());
        }
        OwnerDoorkeeper owner = new OwnerDoorkeeper(office.records());
        routes.addAll(AccountRoutes.owner(office, owner::lookAgain));
        if (name.isPresent()) {
            return Doorkeeper.single(name.get());
        }
        return isDemo ? Doorkeeper.single("Kim Sample (invented)") : owner;
    }

    private static boolean isInvented(Records records) {
        return records.subjects(Kind.VISIT, 1).stream()
                .anyMatch(visit -> visit.text("simulated").equals("true"));
    }

    private void show(String address) {
        String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
        List<String> opener = system.contains("win")
                ? List.of("rundll32", "url.dll,FileProtocolHandler", address)
                : List.of(system.contains("mac") ? "open" : "xdg-open", address);
        try {
            new ProcessBuilder(opener)
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
        } catch (IOException noBrowser) {
            out.println("No browser could be opened; open the address yourself.");
        }
    }
}
