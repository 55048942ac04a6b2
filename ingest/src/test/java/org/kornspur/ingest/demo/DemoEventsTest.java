package org.kornspur.ingest.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;

class DemoEventsTest {
  private static final Path FOLDER =
      Path.of(System.getProperty("basedir", ".")).resolve("../demo-events").normalize();

  private final DemoEvents demo = DemoEvents.invented();

  @Test
  void committedFilesAreWhatTheGeneratorWrites() throws IOException {
    TreeMap<String, String> committed = new TreeMap<>();
    for (Path file : WriteDemo.filesIn(FOLDER)) {
      committed.put(WriteDemo.relative(FOLDER, file), Files.readString(file));
    }

    assertThat(committed.keySet()).isEqualTo(demo.files().keySet());
    demo.files().forEach((path, text) -> assertThat(committed.get(path)).as(path).isEqualTo(text));
  }

  @Test
  void holdsAsMuchAsItPromises() {
    Set<String> fields =
        demo.facts().stream()
            .filter(FieldCropDeclared.class::isInstance)
            .map(fact -> ((FieldCropDeclared) fact).getFieldId())
            .collect(Collectors.toSet());

    assertThat(demo.facts()).hasSizeGreaterThanOrEqualTo(2_000);
    assertThat(About.subjects(demo.facts(), Subject.Kind.LOT)).isGreaterThanOrEqualTo(150);
    assertThat(About.subjects(demo.facts(), Subject.Kind.HYBRID)).isGreaterThanOrEqualTo(6);
    assertThat(fields).hasSizeGreaterThanOrEqualTo(40);
  }

  @Test
  void holdsEveryTypeOfFactThatMayBeSentIn() {
    assertThat(demo.facts().stream().map(FactType::of).collect(Collectors.toSet()))
        .containsExactlyInAnyOrderElementsOf(
            Stream.of(FactType.values()).filter(type -> !type.isAct()).toList());
  }

  @Test
  void givesEachFactAnIdOfItsOwn() {
    List<String> ids =
        demo.facts().stream().map(fact -> FactType.headerOf(fact).getFactId()).toList();

    assertThat(ids).doesNotHaveDuplicates();
  }

  @Test
  void writesDownNothingBeforeItHappened() {
    assertThat(demo.facts())
        .allSatisfy(
            fact ->
                assertThat(FactType.headerOf(fact).getRecordedAt())
                    .isAfterOrEqualTo(FactType.headerOf(fact).getHappenedAt()));
  }

  @Test
  void everyStoryNamesSubjectsThatItsFactsHold() {
    Set<String> subjects = new TreeSet<>();
    for (SpecificRecord fact : demo.facts()) {
      SubjectsNamed.of(fact).forEach(subject -> subjects.add(subject.toString()));
    }

    assertThat(demo.stories()).hasSize(16);
    assertThat(demo.stories())
        .allSatisfy(
            story -> {
              assertThat(story.lookAt()).isNotEmpty();
              assertThat(subjects).as(story.title()).containsAll(story.subjects().toList());
              assertThat(demo.files().keySet())
                  .as(story.title())
                  .anyMatch(path -> path.startsWith("stories/" + story.folder() + "/"));
            });
  }
}
