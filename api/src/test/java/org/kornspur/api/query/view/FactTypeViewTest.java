package org.kornspur.api.query.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.query.view.FactTypeView.Field;
import org.kornspur.api.query.view.FactTypeView.Kind;
import org.kornspur.api.text.EnglishWords;
import org.kornspur.api.text.Language;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.ProblemWords;

class FactTypeViewTest {
  private static final ProblemWords ENGLISH = ProblemLanguage.words(Language.ENGLISH);

  @ParameterizedTest
  @EnumSource(FactType.class)
  void everyTypeCanBeAskedForByAForm(FactType type) {
    FactTypeView view = FactTypeView.of(type, EnglishWords.words(), ENGLISH);

    assertThat(view.description()).isNotBlank();
    assertThat(all(view.fields()))
        .filteredOn(field -> field.kind() == Kind.NUMBER || field.kind() == Kind.WHOLE_NUMBER)
        .allSatisfy(field -> assertThat(field.unit()).as(field.name()).isNotBlank())
        .allSatisfy(field -> assertThat(field.remedy()).as(field.name()).isNotBlank());
    assertThat(all(view.fields()))
        .filteredOn(field -> field.kind() == Kind.CHOICE)
        .allSatisfy(field -> assertThat(field.choices()).as(field.name()).isNotEmpty());
  }

  /** Expected values: GerminationTest.avdl. */
  @Test
  void aGerminationTestIsGivenAsTheContractHasIt() {
    FactTypeView view = FactTypeView.of(FactType.GERMINATION_TEST, EnglishWords.words(), ENGLISH);
    Field replicates = named(view.fields(), "replicates");
    Field seeds = named(replicates.fields(), "seeds");

    assertThat(view.type()).isEqualTo("GerminationTest");
    assertThat(replicates.kind()).isEqualTo(Kind.LIST);
    assertThat(replicates.minItems().intValue()).isEqualTo(2);
    assertThat(seeds.kind()).isEqualTo(Kind.WHOLE_NUMBER);
    assertThat(seeds.unit()).isEqualTo("seeds");
    assertThat(seeds.min().doubleValue()).isEqualTo(25);
    assertThat(seeds.max().doubleValue()).isEqualTo(400);
    assertThat(named(view.fields(), "lotId").names()).isEqualTo("lot");
    assertThat(named(view.fields(), "retestOf").optional()).isTrue();
    assertThat(named(named(view.fields(), "header").fields(), "happenedAt").kind())
        .isEqualTo(Kind.INSTANT);
  }

  private static Field named(List<Field> fields, String name) {
    return fields.stream().filter(field -> field.name().equals(name)).findFirst().orElseThrow();
  }

  private static List<Field> all(List<Field> fields) {
    return fields.stream()
        .flatMap(field -> Stream.concat(Stream.of(field), all(field.fields()).stream()))
        .toList();
  }
}
