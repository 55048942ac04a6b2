package org.kornspur.api.rest.openapi;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.StreamSupport;
import org.kornspur.api.DemoMachine;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.login.Asking;

/** Fills the addresses of the document with what the demo has. */
final class DemoIds {
  private static final ObjectMapper JSON = new ObjectMapper();

  /** Lots and crops of each list that are asked for, spread over it. */
  private static final int SAMPLE = 6;

  private record Source(String address, String list, String id) {}

  private static final Map<String, Source> SOURCES =
      Map.of(
          "lots", new Source("/api/v1/lots?size=1000&sort=id", "/items", "/id"),
          "crops", new Source("/api/v1/crops?size=1000&sort=id", "/items", "/id"),
          "hybrids", new Source("/api/v1/hybrids", "", "/hybridId"),
          "enterprises", new Source("/api/v1/lots?size=100", "/items", "/holder"),
          "rulebooks", new Source("/api/v1/rulebooks", "", "/id"),
          "quarantine", new Source("/api/v1/quarantine", "/items", "/entryId"),
          "people", new Source("/api/v1/people", "", "/personId"),
          "plans", new Source("/api/v1/plans", "", "/planId"),
          "bizSteps", new Source("/api/v1/epcis/bizSteps", "/member", ""),
          "events",
              new Source(
                  "/api/v1/epcis/events?perPage=10",
                  "/epcisBody/queryResults/resultsBody/eventList",
                  "/eventID"));

  private static final Map<String, List<String>> KNOWN =
      Map.of(
          "pollen-sources", List.of("NB-S01"),
          "laboratories", List.of("ENT-LAB-ONE", "ENT-LAB-TWO"),
          "eventTypes", List.of("ObjectEvent", "TransformationEvent"),
          "problems", List.of("invalid-fact"),
          "season-", List.of("2024"),
          "fields-", List.of("2024"));

  private static final Map<String, String> SAME =
      Map.of("hybridity", "crops", "inspection", "crops", "nicking", "crops");

  private final Asking asking;
  private final Map<String, List<String>> found = new HashMap<>();

  DemoIds(Asking asking) {
    this.asking = asking;
  }

  /** What was made by the test itself. */
  void know(String segment, String id) {
    found.put(segment, List.of(id));
  }

  /** Addresses of the demo; the address itself where it names nothing. */
  List<String> addresses(String path) throws IOException, InterruptedException {
    if (path.startsWith("/01/")) {
      String lot = lotOfHybridWithGtin();
      return List.of("/01/" + DemoMachine.GTIN + "/10/" + lot);
    }
    int from = path.indexOf('{');
    if (from < 0) {
      return List.of(path + query(path));
    }
    String before = path.substring(0, from);
    String segment =
        before.endsWith("/")
            ? before.substring(before.lastIndexOf('/', from - 2) + 1, from - 1)
            : before.substring(before.lastIndexOf('/') + 1);
    List<String> addresses = new ArrayList<>();
    for (String id : ids(SAME.getOrDefault(segment, segment))) {
      addresses.add(
          path.replaceFirst("\\{[^}]*}", URLEncoder.encode(id, StandardCharsets.UTF_8))
              .replace("{year}", "2027"));
    }
    return path.contains(".pdf") || path.contains(".xlsx") ? addresses.subList(0, 1) : addresses;
  }

  private String query(String path) throws IOException, InterruptedException {
    if (path.contains("/plan-comparison")) {
      String plan = ids("plans").get(0);
      return "?plan=" + plan + "&plan=" + plan + "@1";
    }
    return path.endsWith("/search") ? "?q=L24" : "";
  }

  private List<String> ids(String segment) throws IOException, InterruptedException {
    List<String> known = KNOWN.getOrDefault(segment, found.get(segment));
    if (known == null) {
      Source source = SOURCES.get(segment);
      JsonNode list = json(source.address()).at(source.list());
      List<String> all =
          StreamSupport.stream(list.spliterator(), false)
              .map(item -> item.at(source.id()).asText())
              .distinct()
              .toList();
      int step = Math.max(1, all.size() / SAMPLE);
      known =
          IntStream.range(0, all.size())
              .filter(index -> index % step == 0)
              .mapToObj(all::get)
              .toList();
      found.put(segment, known);
    }
    return known;
  }

  private String lotOfHybridWithGtin() throws IOException, InterruptedException {
    return json("/api/v1/lots?hybrid=HYB-01&category=CERTIFIED&size=1").at("/items/0/id").asText();
  }

  JsonNode json(String address) throws IOException, InterruptedException {
    return JSON.readTree(asking.get(AsPerson.EVERYTHING, address).body());
  }
}
