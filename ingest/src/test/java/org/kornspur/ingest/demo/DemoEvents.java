package org.kornspur.ingest.demo;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SortedMap;
import org.apache.avro.specific.SpecificRecord;

/**
 * All that {@code demo-events/} holds.
 *
 * @param files text of every file by its path below the folder
 * @param facts every sound fact once, without those that only stand in duplicate or broken files
 * @param stories the troubles, in order of their numbers
 */
record DemoEvents(
    SortedMap<String, String> files, List<SpecificRecord> facts, List<Story> stories) {

  static DemoEvents invented() {
    Book book = new Book();
    Book storyBook = book.in("stories");
    Holding holding = new Holding();
    new FourSeasons(book, holding).write();
    List<Story> stories = new ArrayList<>();
    stories.addAll(new FieldStories(storyBook, holding).tell());
    stories.addAll(new PlantStories(storyBook, holding).tell());
    stories.addAll(new LaboratoryStories(storyBook, holding).tell());
    stories.add(new PostControlStory(storyBook, holding).tell());
    stories.addAll(new FileStories(book, storyBook, holding).tell());
    stories.addAll(new EvidenceStories(storyBook, holding).tell());
    stories.sort(Comparator.comparing(Story::folder));
    SortedMap<String, String> files = book.texts();
    files.put("ABOUT.md", About.text(book.facts(), stories));
    return new DemoEvents(files, book.facts(), stories);
  }
}
