package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.contract.SealedVerdict;
import org.kornspur.contract.Signature;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.gates.Gates;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.release.CanonicalDossier;
import org.kornspur.processors.release.ReleaseSheet;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.standing.LotRelease;
import org.kornspur.standing.ReleaseStep;

/**
 * What was signed over version 1 of the canonical text still counts. The files were written by the
 * last release that had that version, over the invented enterprise. Tests that the enterprise has
 * made of carried-over seed since then, with ids that end in a year, stand in them as that release
 * would have written them: the latest test counted. Counts of mixtures by a marker state the error
 * rates of its method since then: their fingerprints, and the two shares that are corrected by
 * them, are those of today.
 */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
@Tag("slow")
class VersionOneSealsTest {
  private static final String FIT = "lot-L25-01-1";
  private static final String ALSO_FIT = "lot-L23-01";
  private static final Judge JUDGE = new Judge(Rulebooks.bundled()::find, Gates.all());

  private final DrivenTopology topology = JudgedDemo.topology();

  @ParameterizedTest
  @Order(1)
  @ValueSource(
      strings = {
        FIT,
        ALSO_FIT,
        "lot-M24-01",
        "lot-M25-S03",
        "lot-M24-S05",
        "lot-L25-S04A",
        "lot-L26-S08B",
        "lot-L25-S01-P1",
        "lot-L26-S09",
        "lot-L25-S10"
      })
  void theTextIsTheOneThatTheEarlierReleaseWrote(String name) throws IOException {
    String[] written = written(name).split("(?m)^--- ");
    ReleaseSheet sheet = topology.sheet(subject(name));

    assertThat(CanonicalDossier.versionOne(sheet.dossier(), sheet.assessment()))
        .isEqualTo(written[0]);
    for (String part : List.of(written).subList(1, written.length)) {
      String[] typeAndText = part.split("\n", 2);
      FactType type = FactType.valueOf(typeAndText[0]);
      Dossier alone = sheet.dossier().of(entry -> FactType.of(entry.fact()) == type);
      assertThat(CanonicalDossier.versionOne(alone, JUDGE.assess(alone)))
          .as("facts of type %s alone", type)
          .isEqualTo(typeAndText[1]);
    }
  }

  @Test
  @Order(2)
  void aProposalSignedOverItIsCompletedByTheSecondPerson() throws IOException {
    Subject lot = subject(FIT);
    topology.accept(InventedActs.release("a1", lot.id(), signedEarlier(FIT, 1, 2)));
    assertThat(release(lot).getStep()).isEqualTo(ReleaseStep.PROPOSED);

    ReleaseSheet sheet = topology.sheet(lot);
    assertThat(sheet.text()).isEqualTo(wholeText(FIT));
    assertThat(sheet.seal().hex()).isEqualTo(sha256(wholeText(FIT)));
    topology.accept(InventedActs.release("a2", lot.id(), InventedActs.signed(sheet, 11, "p-2", 2)));

    assertThat(release(lot).getStep()).isEqualTo(ReleaseStep.RELEASED);
    assertThat(release(lot).getSignatures())
        .extracting(act -> act.getSignerId())
        .containsExactly("p-1", "p-2");
  }

  @Test
  @Order(2)
  void aReleaseSealedByItStands() throws IOException {
    Subject lot = subject(ALSO_FIT);
    topology.accept(InventedActs.release("a3", lot.id(), signedEarlier(ALSO_FIT, 1, 1)));

    assertThat(release(lot).getStep()).isEqualTo(ReleaseStep.RELEASED);
    assertThat(release(lot).getChanges()).isEmpty();
    ReleaseSheet sheet = topology.sheet(lot);
    assertThat(sheet.text()).startsWith("kornspur-dossier\t2\n");
    assertThat(sheet.isSealedBy(sha256(wholeText(ALSO_FIT)))).isTrue();
    assertThat(sheet.isSealedBy(sheet.seal().hex())).isTrue();
    assertThat(sheet.isSealedBy(sha256(wholeText(FIT)))).isFalse();
  }

  /** A signature as the earlier release made it: its seal, and sentences for what was found. */
  private Signature signedEarlier(String name, int person, int needed) throws IOException {
    Signature today = InventedActs.signed(topology.sheet(subject(name)), 10, "p-" + person, needed);
    return Signature.newBuilder(today)
        .setSeal(sha256(wholeText(name)))
        .setSealedVerdicts(
            today.getSealedVerdicts().stream()
                .map(
                    verdict ->
                        SealedVerdict.newBuilder(verdict)
                            .setSentence("It is met.")
                            .setFindings(null)
                            .build())
                .toList())
        .build();
  }

  private LotRelease release(Subject lot) {
    return topology.standing(lot).getRelease();
  }

  private static Subject subject(String name) {
    return Subject.parse(name.replaceFirst("-", ":"));
  }

  private static String wholeText(String name) throws IOException {
    return written(name).split("(?m)^--- ")[0];
  }

  private static String written(String name) throws IOException {
    try (InputStream file =
        VersionOneSealsTest.class.getResourceAsStream("version-one/" + name + ".txt")) {
      return new String(file.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private static String sha256(String text) {
    return HexFormat.of()
        .formatHex(Fingerprint.sha256().digest(text.getBytes(StandardCharsets.UTF_8)));
  }
}
