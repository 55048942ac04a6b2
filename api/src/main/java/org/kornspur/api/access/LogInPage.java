package org.kornspur.api.access;

import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import org.eclipse.microprofile.openapi.annotations.Operation;

/** The page where people log in. */
@Path(Places.LOG_IN)
public class LogInPage {
  private static final String AFTER_LOG_IN = "/";

  @GET
  @Needs(Action.LOG_IN)
  @Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
  @Operation(hidden = true)
  public String page(@QueryParam("next") String next, @QueryParam("why") String why) {
    return """
        <!DOCTYPE html>
        <html lang="en">
        <head>
        <meta charset="utf-8">
        <meta name="viewport" content="width=device-width, initial-scale=1">
        <title>Kornspur: log in</title>
        </head>
        <body>
        <main>
        <h1>Kornspur</h1>
        <p role="alert">%s</p>
        <form method="post" action="%s">
        <input type="hidden" name="next" value="%s">
        <p><label>Person <input name="personId" autocomplete="username" required></label></p>
        <p><label>Password
        <input name="password" type="password" autocomplete="current-password" required></label></p>
        <p><button>Log in</button></p>
        </form>
        </main>
        </body>
        </html>
        """
        .formatted(words(why), Places.SESSION, escaped(local(next)));
  }

  /**
   * Where to go after the log-in: a path of this site, whatever is asked for. A second slash or a
   * backslash at the start would lead a browser to another host.
   */
  static String local(String next) {
    boolean isPath =
        next != null
            && next.matches("/[A-Za-z0-9/._~%?&=+:,-]*")
            && !next.startsWith("//")
            && next.length() <= 1_000;
    return isPath ? next : AFTER_LOG_IN;
  }

  static String address(String next, String why) {
    return Places.LOG_IN
        + "?why="
        + why
        + "&next="
        + URLEncoder.encode(local(next), StandardCharsets.UTF_8);
  }

  private static String words(String why) {
    if (why == null) {
      return "";
    }
    return why.equals("wait")
        ? "Too many wrong passwords. Wait a few minutes and try again."
        : "The person is not known, may not come in any more, or the password is wrong.";
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("\"", "&quot;").replace("<", "&lt;");
  }
}
