package org.kornspur.api.security.login;

import jakarta.ws.rs.core.MediaType;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A form with a file, as browsers send it ({@code multipart/form-data}, RFC 7578). The server's own
 * reader would write each file to a folder before it is known who may send one.
 */
public final class MultipartForm {
  private static final Pattern DISPOSITION =
      Pattern.compile("(?im)^content-disposition:\\s*form-data;(.*)$");
  private static final Pattern NAME = Pattern.compile("(?i)[; ]name=\"([^\"]*)\"");
  private static final Pattern FILE_NAME = Pattern.compile("(?i)[; ]filename=\"([^\"]*)\"");
  private static final byte[] END_OF_HEAD = {'\r', '\n', '\r', '\n'};
  private static final int MOST_PARTS = 100;

  private final List<Part> parts;

  @SuppressWarnings("ArrayRecordComponent") // bytes on their way; nobody compares parts
  private record Part(String name, Optional<String> fileName, byte[] content) {}

  /**
   * A file of the form.
   *
   * @param name as the sender's machine has it, without its folder
   */
  @SuppressWarnings("ArrayRecordComponent") // bytes on their way; nobody compares files
  public record SentFile(String name, byte[] content) {}

  private MultipartForm(List<Part> parts) {
    this.parts = parts;
  }

  /** Reads a body; what is no part of a form is passed over. */
  public static MultipartForm of(MediaType type, byte[] body) {
    List<Part> parts = new ArrayList<>();
    String boundary = type.getParameters().get("boundary");
    if (boundary != null && !boundary.isEmpty()) {
      byte[] delimiter = ("\r\n--" + boundary).getBytes(StandardCharsets.ISO_8859_1);
      byte[] first = Arrays.copyOfRange(delimiter, 2, delimiter.length);
      int from = indexOf(body, first, 0);
      from = from < 0 ? -1 : from + first.length;
      while (from >= 0 && parts.size() < MOST_PARTS) {
        int end = indexOf(body, delimiter, from);
        if (end < 0) {
          break;
        }
        part(body, from, end).ifPresent(parts::add);
        from = end + delimiter.length;
      }
    }
    return new MultipartForm(parts);
  }

  private static Optional<Part> part(byte[] body, int from, int end) {
    int head = indexOf(body, END_OF_HEAD, from);
    if (head < 0 || head > end) {
      return Optional.empty();
    }
    Matcher disposition =
        DISPOSITION.matcher(new String(body, from, head - from, StandardCharsets.UTF_8));
    if (!disposition.find()) {
      return Optional.empty();
    }
    String parameters = ";" + disposition.group(1);
    byte[] content = Arrays.copyOfRange(body, head + END_OF_HEAD.length, end);
    return found(NAME, parameters)
        .map(name -> new Part(name, found(FILE_NAME, parameters), content));
  }

  private static Optional<String> found(Pattern pattern, String text) {
    Matcher found = pattern.matcher(text);
    return found.find() ? Optional.of(found.group(1)) : Optional.empty();
  }

  private static int indexOf(byte[] body, byte[] wanted, int from) {
    for (int at = from; at <= body.length - wanted.length; at++) {
      int same = 0;
      while (same < wanted.length && body[at + same] == wanted[same]) {
        same++;
      }
      if (same == wanted.length) {
        return at;
      }
    }
    return -1;
  }

  /** The first field of this name, in UTF-8. */
  public Optional<String> text(String name) {
    return parts.stream()
        .filter(part -> part.name().equals(name) && part.fileName().isEmpty())
        .findFirst()
        .map(part -> new String(part.content(), StandardCharsets.UTF_8));
  }

  /** The first file of this name; empty where none was chosen. */
  public Optional<SentFile> file(String name) {
    return parts.stream()
        .filter(part -> part.name().equals(name))
        .filter(part -> part.fileName().filter(given -> !given.isEmpty()).isPresent())
        .findFirst()
        .map(part -> new SentFile(withoutFolder(part.fileName().get()), part.content()));
  }

  private static String withoutFolder(String fileName) {
    return fileName.substring(Math.max(fileName.lastIndexOf('/'), fileName.lastIndexOf('\\')) + 1);
  }
}
