package org.kornspur.api.command.act;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.kornspur.api.problem.RequestGiven;
import org.kornspur.api.problem.SigningProblem;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.Problems;
import org.kornspur.processors.release.ReleaseSheet;

/**
 * The release sheets that this instance gave out lately, by their seal, so that somebody who signs
 * an old one can be told what has changed.
 */
@ApplicationScoped
class ServedReleaseSheets {
  /** A sheet of a lot with thousands of facts takes a megabyte; most take a few kilobytes. */
  private static final int MOST_CHARACTERS = 8 * 1024 * 1024;

  private final LinkedHashMap<String, String> texts = new LinkedHashMap<>();
  private int characters;

  synchronized void keep(ReleaseSheet sheet) {
    String text = sheet.text();
    if (texts.putIfAbsent(sheet.seal().hex(), text) == null) {
      characters += text.length();
    }
    Iterator<String> eldest = texts.values().iterator();
    while (characters > MOST_CHARACTERS && eldest.hasNext()) {
      characters -= eldest.next().length();
      eldest.remove();
    }
  }

  /** What is in the sheet now and was not in the one with this seal, and the other way round. */
  List<Problem> difference(String seenSeal, ReleaseSheet now) {
    Optional<String> seen = seen(seenSeal);
    if (seen.isEmpty()) {
      return List.of(
          Problem.of("seal", seenSeal, new SigningProblem.UnknownSheet(now.seal().hex())));
    }
    Set<String> before = lines(seen.get());
    Set<String> after = lines(now.text());
    Problems difference = new Problems();
    Stream.concat(
            before.stream()
                .filter(line -> !after.contains(line))
                .map(line -> changed(line, new SigningProblem.Gone())),
            after.stream()
                .filter(line -> !before.contains(line))
                .map(line -> changed(line, new SigningProblem.Added())))
        .forEach(difference::add);
    return difference.list();
  }

  private synchronized Optional<String> seen(String seal) {
    return Optional.ofNullable(texts.get(seal));
  }

  private static Problem changed(String line, SigningProblem how) {
    int tab = line.indexOf('\t');
    String kind = tab < 0 ? line : line.substring(0, tab);
    String rest = tab < 0 ? "" : line.substring(tab + 1).replace('\t', ' ');
    return Problem.of(kind, new RequestGiven.SheetLine(Problem.described(rest)), how);
  }

  private static Set<String> lines(String text) {
    return new TreeSet<>(List.of(text.split("\n")));
  }
}
