package org.kornspur.ingest.file;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.apache.avro.specific.SpecificRecord;
import org.apache.commons.csv.CSVFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.GerminationReplicate;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.Sowing;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.InEnglish;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.AnyFact;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;

class CsvFileTest {

  private static final String HEAD = "factId,recordedBy,happenedAt,recordedAt,sourceDocument";
  private static final String HEAD_CELLS =
      "f-1,lab-03,2024-09-02T10:00:00+02:00,2024-09-02T10:05:00+02:00,report 7";

  @Provide
  Arbitrary<SpecificRecord> facts() {
    return AnyFact.ofAnyType();
  }

  /** The table is written by the CSV library; what is read must be what JSON gives. */
  @Property(tries = 500)
  void aRowOfNumberedColumnsSaysWhatItsJsonSays(@ForAll("facts") SpecificRecord fact)
      throws IOException {
    ObjectNode json = AvroJson.write(fact);
    json.remove("type");
    Map<String, String> cells = new LinkedHashMap<>();
    flatten(json, "", cells);
    StringBuilder table = new StringBuilder();
    CSVFormat.RFC4180.printRecord(table, cells.keySet().toArray());
    CSVFormat.RFC4180.printRecord(table, cells.values().toArray());

    List<FileInput> inputs = read(FactType.of(fact).contractName() + ".csv", table.toString());

    assertThat(inputs).hasSize(1);
    ReadResult fromJson = FactParser.accept(AvroJson.write(fact));
    if (fromJson instanceof ReadResult.Fact) {
      assertThat(inputs.get(0).result()).isEqualTo(fromJson);
    } else {
      assertThat(problems(inputs.get(0)))
          .extracting(Problem::field)
          .isEqualTo(
              ((ReadResult.Refused) fromJson).problems().stream().map(Problem::field).toList());
    }
  }

  private static void flatten(JsonNode node, String path, Map<String, String> into) {
    if (node.isObject()) {
      node.fieldNames()
          .forEachRemaining(
              name -> flatten(node.get(name), path.isEmpty() ? name : path + "." + name, into));
    } else if (node.isArray()) {
      for (int index = 0; index < node.size(); index++) {
        flatten(node.get(index), path + "[" + index + "]", into);
      }
    } else if (!node.isNull()) {
      into.put(path, node.asText());
    }
  }

  @Test
  void listsInOneCell() throws IOException {
    Sowing sowing =
        (Sowing)
            fact(
                "Sowing-2024.csv",
                HEAD + ",cropId,areaHa,sown\n" + HEAD_CELLS + ",C1,12.5,LOT1=1200.5; LOT/2 = 300");
    GerminationTest test =
        (GerminationTest)
            fact(
                "GerminationTest.csv",
                HEAD
                    + ",lotId,sampleId,laboratoryId,replicates\n"
                    + HEAD_CELLS
                    + ",L,S,E,100/93;100/95");
    FieldCropDeclared crop =
        (FieldCropDeclared)
            fact(
                "FieldCropDeclared.csv",
                HEAD
                    + ",cropId,fieldId,enterpriseId,hybridId,role,seedComponentId,pollenComponentId,cropYear,category,rulebookId,outline,shieldAccepted,floweringFrom\n"
                    + HEAD_CELLS
                    + ",C1,\"Long, Acre\",E,H,F1_MIXTURE,H,C,2025,CERTIFIED,eu,"
                    + "10.1 52.3;10.2 52.3;10.2 -0.4e-1;,TRUE,2025-06-01"
                        .replace("-0.4e-1", "5.24e1"));
    Dispatch dispatch =
        (Dispatch)
            fact(
                "Dispatch.csv",
                HEAD + ",lotId,customerId,massKg,labelNumbers\n" + HEAD_CELLS + ",L,E,25,A 1;A 2");

    assertThat(sowing.getSown())
        .containsExactly(new LotMass("LOT1", 1200.5), new LotMass("LOT/2", 300.0));
    assertThat(test.getReplicates())
        .containsExactly(new GerminationReplicate(100, 93), new GerminationReplicate(100, 95));
    assertThat(crop.getOutline())
        .containsExactly(
            new GeoPoint(10.1, 52.3), new GeoPoint(10.2, 52.3), new GeoPoint(10.2, 52.4));
    assertThat(crop.getFieldId()).isEqualTo("Long, Acre");
    assertThat(crop.getShieldAccepted()).isTrue();
    assertThat(crop.getFloweringTo()).isNull();
    assertThat(dispatch.getLabelNumbers()).containsExactly("A 1", "A 2");
  }

  @Test
  void aHybridInOneRow() throws IOException {
    HybridDeclared hybrid =
        (HybridDeclared)
            fact(
                "HybridDeclared.csv",
                HEAD
                    + ",hybridId,components,crosses,pollinatorSharePercent,shareBasis,"
                    + "tolerancePercentPoints\n"
                    + HEAD_CELLS
                    + ",H,A=STERILE_LINE;B=FERTILE_LINE;AB=STERILE_SINGLE_CROSS;"
                    + "C=RESTORER_POLLINATOR,AB A B;H AB C,5,VIABLE_KERNELS,1");

    assertThat(hybrid.getComponents()).hasSize(4);
    assertThat(hybrid.getCrosses().get(1).getPollenComponentId()).isEqualTo("C");
  }

  @Test
  void theTypeMayStandInAColumnAndColumnsOfOtherTypesStayEmpty() throws IOException {
    List<FileInput> inputs =
        read(
            "laboratory.csv",
            "type,"
                + HEAD
                + ",lotId,sampleId,laboratoryId,moisturePercent,replicates\n"
                + "MoistureTest,"
                + HEAD_CELLS
                + ",L,S,E,13.5,\n"
                + "GerminationTest,"
                + HEAD_CELLS.replace("f-1", "f-2")
                + ",L,S,E,,100/93;100/95\n"
                + "MoistureTest,"
                + HEAD_CELLS
                + ",L,S,E,13.5,100/93;100/95\n"
                + "Moisture,"
                + HEAD_CELLS
                + ",L,S,E,13.5,\n");

    assertThat(inputs.get(0).result())
        .isInstanceOfSatisfying(
            ReadResult.Fact.class,
            read -> assertThat(read.fact()).isInstanceOf(MoistureTest.class));
    assertThat(inputs.get(1).result()).isInstanceOf(ReadResult.Fact.class);
    assertThat(problems(inputs.get(2))).extracting(Problem::field).containsExactly("replicates");
    assertThat(problems(inputs.get(3))).extracting(Problem::field).containsExactly("type");
  }

  @Test
  void spreadsheetsWithMarkSemicolonsAndCarriageReturnsAreRead() throws IOException {
    List<FileInput> inputs =
        read(
            "MoistureTest.csv",
            "\uFEFF"
                + (HEAD + ",lotId,sampleId,laboratoryId,moisturePercent,,").replace(',', ';')
                + "\r\n"
                + (HEAD_CELLS + ",L,S,E,13.5,,").replace(',', ';')
                + "\r\n;;;;;;;;;;\r\n\r\n");

    assertThat(inputs).hasSize(1);
    assertThat(inputs.get(0).result()).isInstanceOf(ReadResult.Fact.class);
    assertThat(inputs.get(0).line()).isEqualTo(2);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          C1,12.5,LOT1=1200.5;LOT2      | sown[1]        | 'LOT2'
          C1,12.5,LOT1=1200.5=3         | sown[0]        | 'LOT1=1200.5=3'
          C1,12.5,LOT1=x                | sown[0].massKg | 'x'
          C1,"12,5",LOT1=1              | areaHa         | '12,5'
          C1,NaN,LOT1=1                 | areaHa         | 'NaN'
          C1,1e999,LOT1=1               | areaHa         | Infinity
          C1,0x10,LOT1=1                | areaHa         | '0x10'
          C1,,LOT1=1                    | areaHa         | absent
          C1,12.5,;                     | sown           | a list of 0 elements
          C1,12.5                       | ~~             | 7 cells
          C1,12.5,LOT1=1,               | ~~             | 9 cells
          "C1,12.5,LOT1=1               | ~~             | quotation marks that do not pair
          "C1"x,12.5,LOT1=1             | ~~             | quotation marks that do not pair
          """)
  void aBadCellIsNamedAndTheNextRowIsRead(String cells, String field, String value)
      throws IOException {
    List<FileInput> inputs =
        read(
            "Sowing.csv",
            HEAD
                + ",cropId,areaHa,sown\n"
                + HEAD_CELLS
                + ","
                + cells
                + "\n"
                + HEAD_CELLS
                + ",C1,12.5,LOT1=1\n");

    assertThat(inputs).hasSize(2);
    assertThat(problems(inputs.get(0)))
        .extracting(Problem::field, InEnglish::value)
        .containsExactly(org.assertj.core.groups.Tuple.tuple(field, value));
    assertThat(new String(inputs.get(0).original(), StandardCharsets.UTF_8)).endsWith(cells);
    assertThat(inputs.get(1).result()).isInstanceOf(ReadResult.Fact.class);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          Sowing.csv   | factId,colour           | colour
          Sowing.csv   | factId,header           | header
          Sowing.csv   | factId,sown[0]massKg    | sown[0]massKg
          Sowing.csv   | factId,sown[99999].lotId| sown[99999].lotId
          Sowing.csv   | factId,cropId[0]        | cropId[0]
          Sowing.csv   | factId,cropId,cropId    | cropId
          Sowing.csv   | factId,cropId.x         | cropId.x
          Sowing.csv   | factId,correction       | correction
          sowing.csv   | factId,cropId           | type
          2024.csv     | factId,cropId           | type
          Sowings.csv  | factId,cropId           | type
          """)
  void aHeaderLineThatCannotBeUsedRefusesTheFileOnce(String file, String header, String field)
      throws IOException {
    List<FileInput> inputs = read(file, header + "\n1,2,3\n1,2,3\n");

    assertThat(inputs).hasSize(1);
    assertThat(problems(inputs.get(0))).extracting(Problem::field).containsExactly(field, "");
  }

  @Test
  void aListGivenInOneCellAndInNumberedColumnsIsRefused() throws IOException {
    for (String columns :
        List.of("sown,sown[0].lotId", "sown[0].lotId,sown", "sown[0],sown[0].lotId")) {
      String cells =
          columns.startsWith("sown,") || columns.startsWith("sown[0],") ? "A=1,B" : "B,A=1";
      List<FileInput> inputs =
          read(
              "Sowing.csv",
              HEAD + ",cropId,areaHa," + columns + "\n" + HEAD_CELLS + ",C1,12.5," + cells);

      assertThat(problems(inputs.get(0)))
          .extracting(InEnglish::value)
          .contains("two columns for one field");
    }
  }

  @Test
  void aHoleInNumberedColumnsIsNamed() throws IOException {
    List<FileInput> inputs =
        read(
            "Sowing.csv",
            HEAD
                + ",cropId,areaHa,sown[0].lotId,sown[0].massKg,sown[1].lotId,sown[1].massKg\n"
                + HEAD_CELLS
                + ",C1,12.5,,,B,1\n"
                + HEAD_CELLS
                + ",C1,12.5,A,1,,\n");

    assertThat(problems(inputs.get(0))).extracting(Problem::field).containsExactly("sown[0]");
    assertThat(inputs.get(1).result()).isInstanceOf(ReadResult.Fact.class);
  }

  private static SpecificRecord fact(String file, String table) throws IOException {
    List<FileInput> inputs = read(file, table);
    assertThat(inputs).hasSize(1);
    assertThat(inputs.get(0).result()).isInstanceOf(ReadResult.Fact.class);
    return ((ReadResult.Fact) inputs.get(0).result()).fact();
  }

  private static List<FileInput> read(String file, String table) throws IOException {
    List<FileInput> inputs = new ArrayList<>();
    new CsvFile(file, inputs::add)
        .read(new ByteArrayInputStream(table.getBytes(StandardCharsets.UTF_8)));
    return inputs;
  }

  private static List<Problem> problems(FileInput input) {
    return ((ReadResult.Refused) input.result()).problems();
  }
}
