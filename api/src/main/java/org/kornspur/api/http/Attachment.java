package org.kornspur.api.http;

import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.StreamingOutput;

/** An answer that is a file to be kept. */
public final class Attachment {
  private Attachment() {}

  /**
   * In the media type of the address.
   *
   * @param name what no header may hold is replaced in it
   */
  public static Response of(String name, Object content) {
    return named(name, Response.ok(content));
  }

  /** The same, written as it is sent. */
  public static Response of(String name, StreamingOutput content) {
    return named(name, Response.ok(content));
  }

  /** The same, in this media type. */
  public static Response of(String name, Object content, String type) {
    return named(name, Response.ok(content, type));
  }

  private static Response named(String name, Response.ResponseBuilder answer) {
    return answer
        .header(
            HttpHeaders.CONTENT_DISPOSITION,
            "attachment; filename=\"" + name.replaceAll("[^A-Za-z0-9 ._-]", "_") + "\"")
        .build();
  }
}
