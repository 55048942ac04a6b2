package org.kornspur.api.web.fieldbook;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;

/** What stands around a page of the field book, for who asked. */
@RequestScoped
public class FieldBookFrames {
  @Inject PageFrames pages;
  @Inject CurrentCaller caller;
  @Inject ObjectMapper json;

  PageFrames pages() {
    return pages;
  }

  PageFrame frame() {
    return pages.around(NavigationItem.FIELD_BOOK);
  }

  PageTexts texts() {
    return pages.words().texts("book");
  }

  /** Id of who is signed in; empty where nobody is. */
  String person() {
    return caller.ifKnown().map(Caller::personId).orElse("");
  }

  /** Whether who asked may send facts that this form makes. */
  boolean may(FieldBookForm form) {
    return caller.ifKnown().map(known -> known.may(Permission.toPost(form.type()))).orElse(true);
  }

  FieldBookFrame book() {
    return new FieldBookFrame(person(), json(scriptTexts(texts())));
  }

  String json(Object value) {
    try {
      return json.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("Data for a script could not be written", e);
    }
  }

  /** Words in braces are filled in by the script. */
  private static Map<String, String> scriptTexts(PageTexts texts) {
    Map<String, String> all = new TreeMap<>(texts.openTexts("script"));
    for (String key : List.of("required", "undo", "errorTitle")) {
      all.put(key, texts.of(key));
    }
    for (String key : List.of("notANumber", "notWhole", "notATime", "notACorner")) {
      all.put(key, texts.of(key, "{value}"));
    }
    for (String key : List.of("tooSmall", "tooLarge")) {
      all.put(key, texts.of(key, "{value}", "{limit}"));
    }
    all.put("thousandsParted", texts.of("thousandsParted", "{value}", "{grouped}"));
    all.put("ambiguousNumber", texts.of("ambiguousNumber", "{value}", "{grouped}", "{decimal}"));
    all.put("plants", texts.of("plants", "{n}"));
    all.put("onePlant", texts.of("plants", "1"));
    return all;
  }
}
