package org.kornspur.api.architecture;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.lang.ArchRule;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** One direction, {@code api → processors → ingest}; and the domain knows no machinery. */
class ArrowsTest {
  private static final JavaClasses CLASSES = MainClasses.ALL;

  private static final String[] DOMAIN = {
    "org.kornspur.processors.standards..",
    "org.kornspur.processors.statistics..",
    "org.kornspur.processors.ground..",
    "org.kornspur.processors.verdict..",
    "org.kornspur.processors.dossier..",
    "org.kornspur.processors.gates..",
    "org.kornspur.processors.pedigree..",
    "org.kornspur.processors.balance..",
    "org.kornspur.processors.recall..",
    "org.kornspur.processors.judging..",
    "org.kornspur.processors.advice..",
    "org.kornspur.processors.plan..",
    "org.kornspur.processors.finding..",
    "org.kornspur.processors.release..",
    "org.kornspur.ingest.chain..",
    "org.kornspur.ingest.statement..",
    "org.kornspur.api.export.identity..",
    "org.kornspur.api.export.epcis..",
    "org.kornspur.api.export.prov..",
    "org.kornspur.api.export.spreadsheet..",
    "org.kornspur.api.export.label..",
    "org.kornspur.ingest.contract..",
    "org.kornspur.ingest.intake..",
    "org.kornspur.ingest.json.."
  };

  @Test
  void allThreeModulesAreLookedAt() {
    assertThat(CLASSES.stream().map(type -> type.getPackageName()).distinct())
        .anyMatch(name -> name.startsWith("org.kornspur.ingest."))
        .anyMatch(name -> name.startsWith("org.kornspur.processors."))
        .anyMatch(name -> name.startsWith("org.kornspur.api."));
  }

  @Test
  void ingestKnowsNothingAboveIt() {
    rule("org.kornspur.ingest..", "org.kornspur.processors..", "org.kornspur.api..").check(CLASSES);
  }

  @Test
  void processorsKnowNothingAboveThem() {
    rule("org.kornspur.processors..", "org.kornspur.api..").check(CLASSES);
  }

  @Test
  void theDomainKnowsNeitherKafkaNorQuarkus() {
    noClasses()
        .that()
        .resideInAnyPackage(DOMAIN)
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(
            "org.apache.kafka..",
            "io.quarkus..",
            "jakarta..",
            "org.kornspur.processors.stream..",
            "org.kornspur.ingest.wire..",
            "org.kornspur.ingest.publish..")
        .check(CLASSES);
  }

  @Test
  void statisticsStandAlone() {
    noClasses()
        .that()
        .resideInAPackage("org.kornspur.processors.statistics..")
        .should()
        .dependOnClassesThat(
            resideInAPackage("org.kornspur..")
                .and(
                    not(
                        resideInAnyPackage(
                            "org.kornspur.processors.statistics..",
                            "org.kornspur.ingest.statement..",
                            "org.kornspur.contract.."))))
        .check(CLASSES);
  }

  /** Each room of the api knows only those before it. */
  @Test
  void theRoomsOfTheApiStandInOrder() {
    List<String> rooms =
        List.of(
            "time",
            "text",
            "problem",
            "storage",
            "kafka",
            "readmodel",
            "security",
            "http",
            "query",
            "command",
            "rest");
    for (int room = 0; room < rooms.size(); room++) {
      List<String> above = new ArrayList<>(rooms.subList(room + 1, rooms.size()));
      above.addAll(List.of("web", "export"));
      rule("org.kornspur.api." + rooms.get(room) + "..", all(above)).check(CLASSES);
    }
    rule("org.kornspur.api.web..", all(List.of("rest", "export"))).check(CLASSES);
    rule("org.kornspur.api.export..", all(List.of("rest", "web"))).check(CLASSES);
    assertThat(CLASSES)
        .filteredOn(type -> type.getPackageName().startsWith("org.kornspur.api."))
        .extracting(type -> type.getPackageName().split("\\.")[3])
        .isSubsetOf(
            Stream.concat(rooms.stream(), Stream.of("web", "export")).toArray(String[]::new));
  }

  private static String[] all(List<String> rooms) {
    return rooms.stream().map(room -> "org.kornspur.api." + room + "..").toArray(String[]::new);
  }

  @Test
  void packagesFormNoCircle() {
    slices().matching("org.kornspur.(*).(*)..").should().beFreeOfCycles().check(CLASSES);
    slices().matching("org.kornspur.api.(*).(**)").should().beFreeOfCycles().check(CLASSES);
  }

  /** An address in a fact stays text: only these places ever open a connection by HTTP. */
  @Test
  void onlyTheRegistryTheOtherInstancesAndWebhooksAreAskedByHttp() {
    noClasses()
        .that()
        .doNotHaveFullyQualifiedName("org.kornspur.ingest.registry.HttpSchemaRegistry")
        .and()
        .doNotHaveFullyQualifiedName("org.kornspur.api.kafka.PeerClient")
        .and()
        .doNotHaveFullyQualifiedName("org.kornspur.api.command.notification.Webhook")
        .and() // loads classes from jars that the site names as files
        .doNotHaveFullyQualifiedName("org.kornspur.ingest.wire.AvroSerdes")
        .should()
        .dependOnClassesThat()
        .haveNameMatching(
            "java\\.net\\.http\\.HttpClient|io\\.vertx\\.core\\.http\\.HttpClient|java\\.net\\.(URL|URLConnection|HttpURLConnection|Socket)")
        .check(CLASSES);
  }

  @Test
  void aBrokenRuleIsFound() {
    ArchRule wrongWay = rule("org.kornspur.processors..", "org.kornspur.ingest..");
    assertThatThrownBy(() -> wrongWay.check(CLASSES)).isInstanceOf(AssertionError.class);
  }

  private static ArchRule rule(String from, String... mayNotKnow) {
    return noClasses()
        .that()
        .resideInAPackage(from)
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(mayNotKnow);
  }
}
