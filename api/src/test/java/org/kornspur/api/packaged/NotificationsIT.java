package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.api.Waiting.until;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.time.LocalDate;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.FreePorts;
import org.kornspur.api.TestCertificate;
import org.kornspur.api.command.act.InventedFitLot;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.Asking;
import org.kornspur.api.security.people.TestPeople;
import org.subethamail.smtp.auth.EasyAuthenticationHandlerFactory;
import org.subethamail.smtp.auth.LoginFailedException;
import org.subethamail.smtp.server.SMTPServer;
import org.subethamail.wiser.Wiser;

/**
 * Persons hear of what they may see, once, over faults of the receiver and a kill of the program:
 * the packaged program before a real web server and a real mail server on loopback.
 */
class NotificationsIT {
  private static final String QUALITY = TestPeople.of(Role.QUALITY);
  private static final String GROWER = TestPeople.of(Role.MULTIPLIER);
  private static final String INSPECTOR = TestPeople.of(Role.INSPECTOR);
  private static final String AUDITOR = TestPeople.of(Role.AUDITOR);
  private static final String ADMINISTRATOR = TestPeople.of(Role.ADMINISTRATOR);
  private static final String MAIL_PASSWORD = "an invented password of the mail server";
  private static final int STILL_MILLIS = 5_000;
  private static final ObjectMapper JSON = new ObjectMapper();

  private record Received(String id, String timestamp, String signature, byte[] body, int status) {
    String text() {
      return new String(body, StandardCharsets.UTF_8);
    }
  }

  @TempDir Path folder;
  private final Map<String, List<Received>> received = new ConcurrentHashMap<>();
  private final Map<String, Integer> failures = new ConcurrentHashMap<>();
  private final int smtpPort = FreePorts.next();
  private TestCertificate certificate;
  private Wiser mail;
  private HttpServer web;
  private Asking asking;

  @BeforeEach
  void startServers() throws IOException, GeneralSecurityException {
    certificate = TestCertificate.in(folder);
    mail = Wiser.create(mailServer());
    mail.start();
    web = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    web.createContext("/", this::take);
    web.start();
  }

  /** Takes mail only of who logged in behind STARTTLS. */
  private SMTPServer.Builder mailServer() throws IOException, GeneralSecurityException {
    return SMTPServer.port(smtpPort)
        .bindAddress(InetAddress.getLoopbackAddress())
        .enableTLS()
        .requireTLS()
        .startTlsSocketFactory(certificate.server())
        .requireAuth()
        .authenticationHandlerFactory(
            new EasyAuthenticationHandlerFactory(
                (user, password, context) -> {
                  if (!user.equals("kornspur") || !password.equals(MAIL_PASSWORD)) {
                    throw new LoginFailedException();
                  }
                }));
  }

  @AfterEach
  void stopServers() {
    web.stop(0);
    mail.stop();
  }

  /** Fails as often as it is to, then takes what comes. */
  private void take(HttpExchange exchange) throws IOException {
    String person = exchange.getRequestURI().getPath().substring(1);
    int left = failures.getOrDefault(person, 0);
    failures.put(person, Math.max(0, left - 1));
    int status = left > 0 ? 500 : 200;
    received
        .computeIfAbsent(person, one -> new CopyOnWriteArrayList<>())
        .add(
            new Received(
                exchange.getRequestHeaders().getFirst("Kornspur-Message-Id"),
                exchange.getRequestHeaders().getFirst("Kornspur-Timestamp"),
                exchange.getRequestHeaders().getFirst("Kornspur-Signature"),
                exchange.getRequestBody().readAllBytes(),
                status));
    exchange.sendResponseHeaders(status, -1);
    exchange.close();
  }

  @Test
  void eachHearsOnceOfWhatTheyMaySee() throws Exception {
    try (OneMachine machine =
        new OneMachine(folder)
            .with("KORNSPUR_MAIL_HOST", "127.0.0.1")
            .with("KORNSPUR_MAIL_PORT", Integer.toString(smtpPort))
            .with("KORNSPUR_MAIL_SECURITY", "starttls")
            .with("KORNSPUR_MAIL_USER", "kornspur")
            .with("KORNSPUR_MAIL_PASSWORD", MAIL_PASSWORD)
            .option("-Djavax.net.ssl.trustStore=" + certificate.keyStore())
            .option("-Djavax.net.ssl.trustStorePassword=" + TestCertificate.PASSWORD)
            .with("KORNSPUR_MAIL_FROM", "kornspur@seed.example")
            .with("KORNSPUR_NOTIFICATIONS_PRIVATE_ADDRESSES", "true")
            .with("KORNSPUR_NOTIFICATIONS_ATTEMPTS", "3")
            .with("KORNSPUR_NOTIFICATIONS_FIRST_PAUSE", "PT0.3S")
            .with("KORNSPUR_NOTIFICATIONS_INTERVAL", "PT0.5S")
            .with("KORNSPUR_PUBLIC_ADDRESS", "https://seed.example")) {
      machine.start();
      machine.awaitReady();
      asking = new Asking("http://127.0.0.1:" + machine.port());
      spoil(machine, "N-OLD");

      final String secret = webhook(QUALITY, "NOT_FIT=AT_ONCE&QUARANTINED=AT_ONCE");
      webhook(GROWER, "NOT_FIT=AT_ONCE&QUARANTINED=AT_ONCE");
      webhook(TestPeople.WEST, "NOT_FIT=AT_ONCE&QUARANTINED=AT_ONCE");
      assertThat(
              save(AUDITOR, "NOT_FIT=AT_ONCE&channel=EMAIL&mailAddress=auditor%40seed.example")
                  .status())
          .isEqualTo(303);
      confirmsTheAddress(machine);

      failures.put(QUALITY, 2);
      spoil(machine, "N-NEW");
      until(() -> taken(QUALITY).size() == 1 && taken(GROWER).size() == 1);
      until(() -> mail.getMessages().size() == 2);
      List<Received> tries = received.get(QUALITY);
      assertThat(tries).extracting(Received::status).containsExactly(500, 500, 200);
      assertThat(tries).extracting(Received::id).containsOnly(tries.get(0).id());
      for (Received one : tries) {
        assertThat(one.signature()).isEqualTo("v1=" + hmac(secret, one));
      }
      JsonNode told = JSON.readTree(taken(QUALITY).get(0).body());
      assertThat(told.at("/lines/0/text").asText()).contains("N-NEW").contains("not fit");
      assertThat(told.at("/lines/0/link").asText()).isEqualTo("https://seed.example/lots/N-NEW");
      assertThat(taken(GROWER).get(0).text()).contains("N-NEW").doesNotContain("N-OLD");
      assertThat((String) mail.getMessages().get(1).getMimeMessage().getContent())
          .contains("N-NEW")
          .doesNotContain("N-OLD");

      // refused input of another is for who sees all
      assertThat(machine.site().postLines("/api/v1/facts", "no fact").status()).isNotEqualTo(200);
      until(() -> taken(QUALITY).size() == 2);
      assertThat(taken(QUALITY).get(1).text()).contains("QUARANTINED").doesNotContain("no fact");

      machine.kill();
      machine.start();
      machine.awaitReady();
      Thread.sleep(STILL_MILLIS);
      // the latest may have come again, for the kill may have come before it was noted as sent
      assertThat(taken(QUALITY).stream().map(Received::id).distinct()).hasSize(2);
      assertThat(taken(QUALITY)).filteredOn(Received::id, tries.get(0).id()).hasSize(1);
      assertThat(taken(GROWER)).hasSize(1);
      assertThat(mail.getMessages()).hasSize(2);

      tellsOfACropInFlower(machine);
      givesUpAndSendsAgain(machine);
      tellsOfAPlanThatFallsShort(machine);
      assertThat(received).doesNotContainKey(TestPeople.WEST);
    }
  }

  /** Nothing goes to an address before its owner shows that mail arrives there. */
  private void confirmsTheAddress(OneMachine machine) throws Exception {
    assertThat(mail.getMessages()).hasSize(1);
    spoil(machine, "N-UNCONFIRMED");
    until(() -> taken(QUALITY).size() == 1 && taken(GROWER).size() == 1);
    received.clear();
    assertThat(mail.getMessages()).hasSize(1);
    Matcher code =
        Pattern.compile("Your code is (\\w{8})\\.")
            .matcher((String) mail.getMessages().get(0).getMimeMessage().getContent());
    assertThat(code.find()).isTrue();
    assertThat(form(AUDITOR, "/notifications/confirm", "code=00000000").status()).isEqualTo(400);
    assertThat(form(AUDITOR, "/notifications/confirm", "code=" + code.group(1)).status())
        .isEqualTo(303);
    assertThat(page(AUDITOR)).doesNotContain("id=\"unconfirmed\"");
  }

  /** Half of the seed for a hybrid is condemned after its plan was approved. */
  private void tellsOfAPlanThatFallsShort(OneMachine machine) throws Exception {
    String seed = InventedFitLot.facts("N-PLAN").get(0);
    String facts =
        InventedFacts.fact(
                "HybridDeclared",
                "n-hybrid",
                """
                "hybridId": "HYB-T", "components": [\
                {"componentId": "SX", "kind": "STERILE_SINGLE_CROSS"}, \
                {"componentId": "RP", "kind": "RESTORER_POLLINATOR"}], \
                "crosses": [{"seedComponentId": "HYB-T", "femaleComponentId": "SX", \
                "pollenComponentId": "RP"}], "pollinatorSharePercent": 10.0, \
                "shareBasis": "MASS", "tolerancePercentPoints": 1.0""")
            + "\n"
            + seed
            + "\n"
            + seed.replace("N-PLAN", "N-POLLEN").replace("\"SX\"", "\"RP\"");
    assertThat(machine.site().postLines("/api/v1/facts", facts).status()).isEqualTo(200);
    for (String lot : List.of("N-PLAN", "N-POLLEN")) {
      until(
          () -> {
            Site.Answer answer = machine.site().get("/api/v1/lots/" + lot);
            return answer.status() == 200 && answer.body().at("/asOf/complete").asBoolean();
          });
    }
    int year = LocalDate.now().getYear() + 2;
    Asking.Answer saved =
        asking.post(
            QUALITY,
            "/api/v1/plans",
            """
            {"name": "Two years", "reason": "test", "question": {"firstYear": %d, "lastYear": %d,
             "demands": [{"hybridId": "HYB-T", "year": %d, "expectedTonnes": 20}]}}
            """
                .formatted(year - 2, year, year));
    assertThat(saved.status()).as(saved.body()).isEqualTo(201);
    String plan = JSON.readTree(saved.body()).at("/head/planId").asText();
    assertThat(JSON.readTree(saved.body()).at("/demands/0/metKg").asDouble()).isPositive();
    Asking.Answer approved =
        asking.post(
            QUALITY,
            "/api/v1/plans/" + plan + "/approval",
            "{\"version\": 1, \"reason\": \"agreed\"}");
    assertThat(approved.status()).as(approved.body()).isEqualTo(200);
    webhook(AUDITOR, "PLAN_SHORT=AT_ONCE");

    Thread.sleep(STILL_MILLIS);
    assertThat(taken(AUDITOR)).isEmpty();
    long before = System.nanoTime();
    spoil(machine, "N-PLAN");
    until(() -> told(AUDITOR, "PLAN_SHORT"));
    System.out.printf(
        "Told that a plan falls short %.1f s after the lot was condemned%n",
        (System.nanoTime() - before) / 1e9);
    JsonNode line = JSON.readTree(taken(AUDITOR).get(0).body()).at("/lines/0");
    assertThat(line.at("/text").asText())
        .contains("Two years", "HYB-T", Integer.toString(year), "Until 31 Oct ");
    assertThat(line.at("/link").asText()).isEqualTo("https://seed.example/plan/" + plan);
    JsonNode now = JSON.readTree(asking.get(QUALITY, "/api/v1/plans/" + plan).body());
    assertThat(now.at("/approved/difference/lots/0/lotId").asText()).isEqualTo("N-PLAN");
    assertThat(now.at("/approved/difference/lots/0/reason").asText()).isEqualTo("NOT_FIT");
    assertThat(now.at("/approved/difference/demands/0/metNowKg").asDouble()).isZero();
  }

  private void tellsOfACropInFlower(OneMachine machine) throws Exception {
    webhook(INSPECTOR, "VISIT_DUE=AT_ONCE&EVIDENCE_DUE=AT_ONCE");
    LocalDate today = LocalDate.now();
    LocalDate last = today.plusDays(3);
    String crop =
        InventedFacts.fact(
            "FieldCropDeclared",
            "n-crop",
            """
            "cropId": "N-CROP", "fieldId": "Long Acre", "enterpriseId": "ENT-1", \
            "hybridId": "HYB-T", "role": "F1_MIXTURE", "seedComponentId": "HYB-T", \
            "pollenComponentId": "RP", "cropYear": %d, "category": "CERTIFIED", \
            "rulebookId": "EU", "floweringFrom": "%s", "floweringTo": "%s", \
            "outline": [{"lon": 11.0, "lat": 52.0}, \
            {"lon": 11.01, "lat": 52.0}, {"lon": 11.01, "lat": 52.005}]\
            """
                .formatted(last.getYear(), today.minusDays(2), last));
    Site.Answer brought = machine.site().postLines("/api/v1/facts", crop);
    assertThat(brought.status()).as("%s", brought.body()).isEqualTo(200);
    until(() -> told(INSPECTOR, "VISIT_DUE") && told(INSPECTOR, "EVIDENCE_DUE"));
    assertThat(taken(INSPECTOR).get(0).text())
        .contains("N-CROP", "https://seed.example/crops/N-CROP", "Field inspections");
  }

  private boolean told(String person, String kind) {
    return taken(person).stream().anyMatch(one -> one.text().contains(kind));
  }

  private void givesUpAndSendsAgain(OneMachine machine) throws Exception {
    failures.put(GROWER, 1_000);
    spoil(machine, "N-LATE");
    until(() -> page(ADMINISTRATOR).contains(">" + GROWER + "<"));
    assertThat(page(ADMINISTRATOR)).contains("HTTP 500").doesNotContain("N-LATE");
    assertThat(page(QUALITY)).doesNotContain("HTTP 500");
    List<Received> tries = received.get(GROWER);
    assertThat(tries).hasSize(1 + 3);

    // what waits is sent after a start; what was given up waits for somebody
    Matcher again =
        Pattern.compile("(/notifications/messages/[^/]+/again)\"").matcher(page(ADMINISTRATOR));
    assertThat(again.find()).isTrue();
    assertThat(form(QUALITY, again.group(1), "").status()).isEqualTo(403);
    failures.put(GROWER, 0);
    assertThat(form(ADMINISTRATOR, again.group(1), "").status()).isEqualTo(303);
    until(() -> taken(GROWER).size() == 2);
    assertThat(taken(GROWER).get(1).text()).contains("N-LATE");
    assertThat(taken(GROWER).get(1).id()).isEqualTo(tries.get(1).id());
    until(() -> !page(ADMINISTRATOR).contains(">" + GROWER + "<"));
  }

  /** Brings a lot of the grower's enterprise that is not what its name says. */
  private static void spoil(OneMachine machine, String lot) throws Exception {
    String facts =
        InventedFitLot.facts(lot).get(0)
            + "\n"
            + InventedFitLot.failedPostControl(lot + "-control", lot);
    assertThat(machine.site().postLines("/api/v1/facts", facts).status()).isEqualTo(200);
    until(
        () ->
            machine
                .site()
                .get("/api/v1/lots/" + lot)
                .body()
                .at("/state")
                .asText()
                .equals("NOT_FIT"));
  }

  /** Chooses a webhook, and gives back the secret that the page shows. */
  private String webhook(String person, String wishes) throws Exception {
    String address = "http://127.0.0.1:" + web.getAddress().getPort() + "/" + person;
    Asking.Answer saved =
        save(
            person,
            wishes
                + "&channel=WEBHOOK&webAddress="
                + URLEncoder.encode(address, StandardCharsets.UTF_8));
    assertThat(saved.status()).as(saved.body()).isEqualTo(200);
    Matcher secret = Pattern.compile("id=\"secret\">([^<]{40,})<").matcher(saved.body());
    assertThat(secret.find()).isTrue();
    assertThat(page(person)).contains("/" + person).doesNotContain(secret.group(1));
    return secret.group(1);
  }

  private Asking.Answer save(String person, String chosen) throws Exception {
    String all =
        List.of(
                "NOT_FIT",
                "RELEASE_SUSPENDED",
                "EVIDENCE_DUE",
                "QUARANTINED",
                "VISIT_DUE",
                "PLAN_SHORT")
            .stream()
            .filter(kind -> !chosen.contains(kind + "="))
            .map(kind -> kind + "=OFF")
            .collect(Collectors.joining("&"));
    return form(person, "/notifications", chosen + "&daysAhead=7&" + all);
  }

  private Asking.Answer form(String person, String path, String body) throws Exception {
    return asking.ask(
        "POST",
        path,
        Map.of(
            "Authorization",
            TestPeople.basic(person),
            "Content-Type",
            "application/x-www-form-urlencoded",
            "Accept",
            "text/html",
            "Accept-Language",
            "en"),
        body);
  }

  private String page(String person) throws Exception {
    return asking
        .ask(
            "GET",
            "/notifications",
            Map.of(
                "Authorization",
                TestPeople.basic(person),
                "Accept",
                "text/html",
                "Accept-Language",
                "en"),
            "")
        .body();
  }

  private List<Received> taken(String person) {
    return received.getOrDefault(person, List.of()).stream()
        .filter(one -> one.status() == 200)
        .toList();
  }

  private static String hmac(String secret, Received one) throws Exception {
    Mac mac = Mac.getInstance("HmacSHA256");
    mac.init(new SecretKeySpec(secret.getBytes(StandardCharsets.UTF_8), "HmacSHA256"));
    mac.update((one.timestamp() + ".").getBytes(StandardCharsets.US_ASCII));
    return HexFormat.of().formatHex(mac.doFinal(one.body()));
  }
}
