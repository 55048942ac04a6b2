package org.kornspur.api.export.epcis;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.api.export.DemoEntries;
import org.kornspur.api.export.identity.Identifiers;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.LotMerge;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.JsonText;
import org.kornspur.ingest.json.ReadResult;

/** Events of programs that know nothing of ours; in the shape of the standard's own examples. */
class ForeignEventsTest {
  private static final String HEAD =
      """
      "eventID": "urn:uuid:8c38bb36-4b2e-4b8a-9b3e-1b2f3c4d5e6f",
      "eventTime": "2025-09-30T14:00:00+02:00", "eventTimeZoneOffset": "+02:00",
      """;

  private final Identifiers ids = new Identifiers("https://seed.example");
  private final FactsFromEpcis reader = new FactsFromEpcis(ids, "gate-1");

  @Test
  void aShipmentBecomesADispatchForEachLot() throws Exception {
    List<ReadResult> results =
        read(
            """
            {"type": "ObjectEvent", %s "action": "OBSERVE",
             "bizStep": "https://ref.gs1.org/cbv/BizStep-shipping",
             "quantityList": [
               {"epcClass": "urn:epc:class:lgtin:0614141.107346.101", "quantity": 1.5, "uom": "TNE"},
               {"epcClass": "https://seed.example/lots/L25-7", "quantity": 250, "uom": "KGM"}],
             "destinationList": [
               {"type": "owning_party", "destination": "https://seed.example/enterprises/ENT-C1"}]}
            """);
    List<SpecificRecord> facts = facts(results);
    assertThat(facts).allMatch(Dispatch.class::isInstance).hasSize(2);
    Dispatch first = (Dispatch) facts.get(0);
    assertThat(first.getLotId()).isEqualTo("10614141073464/101");
    assertThat(first.getMassKg()).isEqualTo(1500);
    assertThat(first.getCustomerId()).isEqualTo("ENT-C1");
    assertThat(first.getHeader().getFactId())
        .isEqualTo("epcis-8c38bb36-4b2e-4b8a-9b3e-1b2f3c4d5e6f");
    assertThat(FactType.headerOf(facts.get(1)).getFactId())
        .isEqualTo("epcis-8c38bb36-4b2e-4b8a-9b3e-1b2f3c4d5e6f-1");
  }

  @Test
  void manyLotsIntoOneAreAMerge() throws Exception {
    List<ReadResult> results =
        read(
            """
            {"type": "TransformationEvent", %s
             "inputQuantityList": [
               {"epcClass": "https://seed.example/lots/A", "quantity": 100, "uom": "KGM"},
               {"epcClass": "https://seed.example/lots/B", "quantity": 200, "uom": "KGM"}],
             "outputQuantityList": [
               {"epcClass": "https://seed.example/lots/C", "quantity": 300, "uom": "KGM"}]}
            """);
    LotMerge merge = (LotMerge) facts(results).get(0);
    assertThat(merge.getIntoLotId()).isEqualTo("C");
    assertThat(merge.getInputs()).hasSize(2);
  }

  @Test
  void aLotThatComesIntoBeingMustSayWhatItIs() throws Exception {
    String event =
        """
        {"type": "ObjectEvent", %s "action": "ADD", "bizStep": "commissioning",
         "quantityList": [
           {"epcClass": "https://seed.example/lots/P26-1", "quantity": 40, "uom": "KGM"}]%s}
        """;
    List<Problem> problems = problems(read(event.formatted("%s", "")));
    assertThat(problems)
        .extracting(Problem::field)
        .contains("ilmd.kornspur:hybrid", "ilmd.kornspur:category", "ilmd.kornspur:cropYear");
    String ilmd =
        """
        , "ilmd": {"kornspur:hybrid": "https://seed.example/hybrids/HYB-01",
          "kornspur:enterprise": "https://seed.example/enterprises/ENT-B",
          "kornspur:component": "C-01", "kornspur:category": "BREEDER",
          "kornspur:rulebook": "EU", "kornspur:cropYear": 2025}
        """;
    LotDeclared lot = (LotDeclared) facts(read(event.formatted("%s", ilmd))).get(0);
    assertThat(lot.getComponentId()).isEqualTo("C-01");
    assertThat(lot.getCropYear()).isEqualTo(2025);
  }

  @Test
  void whatSaysTooLittleIsRefusedAndSaysWhatIsMissing() throws Exception {
    List<Problem> problems =
        problems(
            read(
                """
                {"type": "ObjectEvent", %s "action": "OBSERVE", "bizStep": "shipping",
                 "quantityList": [{"epcClass": "urn:epc:idpat:sgtin:0614141.107346.*"}]}
                """));
    assertThat(problems)
        .extracting(Problem::field)
        .containsExactlyInAnyOrder(
            "destinationList", "quantityList[0].epcClass", "quantityList[0].quantity");
  }

  @Test
  void aNegativeMassMeetsTheOrdinaryChecks() throws Exception {
    List<Problem> problems =
        problems(
            read(
                """
                {"type": "ObjectEvent", %s "action": "OBSERVE", "bizStep": "shipping",
                 "quantityList": [
                   {"epcClass": "https://seed.example/lots/A", "quantity": -5, "uom": "KGM"}],
                 "destinationList": [
                   {"type": "owning_party",
                    "destination": "https://seed.example/enterprises/ENT-C1"}]}
                """));
    assertThat(problems).extracting(Problem::field).containsExactly("massKg");
  }

  @Test
  void theSameEventIsTheSameFact() throws Exception {
    String event =
        """
        {"type": "TransformationEvent", %s
         "inputQuantityList": [
           {"epcClass": "https://seed.example/lots/A", "quantity": 100, "uom": "KGM"}],
         "outputQuantityList": [
           {"epcClass": "https://seed.example/lots/B", "quantity": 90, "uom": "KGM"}]}
        """;
    assertThat(facts(read(event))).isEqualTo(facts(read(event)));
  }

  @Test
  void anEventOfOursThatWasChangedOnItsWayIsRefused() throws Exception {
    ObjectNode event =
        new EpcisEvents(ids, ZoneOffset.UTC, lotId -> Optional.empty(), DemoEntries::fact)
            .event(DemoEntries.all().get(0))
            .deepCopy();
    event.put("eventTime", "2001-01-01T00:00:00Z");
    JsonNode sent = JsonText.parse(event.toString());
    List<Problem> problems = problems(reader.read(sent, CaptureDocument.ofEvent(sent).factKeys()));
    assertThat(problems).extracting(Problem::field).containsExactly("eventTime");
  }

  private List<ReadResult> read(String event) throws Exception {
    JsonNode json = JsonText.parse(event.formatted(HEAD));
    return reader.read(json, CaptureDocument.ofEvent(json).factKeys());
  }

  private static List<SpecificRecord> facts(List<ReadResult> results) {
    return results.stream().map(result -> ((ReadResult.Fact) result).fact()).toList();
  }

  private static List<Problem> problems(List<ReadResult> results) {
    return results.stream()
        .flatMap(result -> ((ReadResult.Refused) result).problems().stream())
        .toList();
  }
}
