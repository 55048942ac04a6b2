package org.kornspur.api.web.fieldbook;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.Map;
import java.util.TreeMap;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.Frame;
import org.kornspur.api.web.Framing;
import org.kornspur.api.web.NavigationItem;

/** What stands around a page of the field book, for who asked. */
@RequestScoped
public class BookFrames {
  @Inject Framing framing;
  @Inject CurrentCaller caller;
  @Inject ObjectMapper json;

  Framing framing() {
    return framing;
  }

  Frame frame() {
    return framing.around(NavigationItem.FIELD_BOOK);
  }

  PageTexts texts() {
    return framing.texts("book");
  }

  /** Id of who is signed in; empty where nobody is. */
  String person() {
    return caller.ifKnown().map(Caller::personId).orElse("");
  }

  /** Whether who asked may send facts that this form makes. */
  boolean may(BookForm form) {
    return caller.ifKnown().map(known -> known.may(Permission.toPost(form.type()))).orElse(true);
  }

  Book book() {
    return new Book(person(), json(scriptTexts(texts())));
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
    Map<String, String> all = new TreeMap<>();
    all.put("waiting", texts.of("scriptWaiting", "{n}"));
    all.put("nothingWaiting", texts.of("scriptNothingWaiting"));
    all.put("noNetwork", texts.of("scriptNoNetwork"));
    all.put("signIn", texts.of("scriptSignIn"));
    all.put("otherPerson", texts.of("scriptOtherPerson", "{person}"));
    all.put("draft", texts.of("scriptDraft", "{time}"));
    all.put("kept", texts.of("scriptKept", "{time}"));
    all.put("notKept", texts.of("scriptNotKept"));
    all.put("keepable", texts.of("scriptKeepable", "{n}"));
    all.put("insecure", texts.of("scriptInsecure"));
    all.put("noStorage", texts.of("scriptNoStorage"));
    all.put("areaOrPlants", texts.of("areaOrPlants"));
    all.put("required", texts.of("required"));
    all.put("notANumber", texts.of("notANumber", "{value}"));
    all.put("notWhole", texts.of("notWhole", "{value}"));
    all.put("notATime", texts.of("notATime", "{value}"));
    all.put("notACorner", texts.of("notACorner", "{value}"));
    all.put("tooSmall", texts.of("tooSmall", "{value}", "{limit}"));
    all.put("tooLarge", texts.of("tooLarge", "{value}", "{limit}"));
    all.put("moreThanWhole", texts.of("moreThanWhole", "{value}", "{whole}", "{limit}"));
    all.put("mend", texts.of("mend", "{n}"));
    all.put("goOn", texts.of("decisionGoOn"));
    all.put("accept", texts.of("decisionAccept"));
    all.put("reject", texts.of("decisionReject"));
    all.put("found", texts.of("scriptFound", "{bad}", "{units}"));
    all.put("foundBefore", texts.of("scriptFoundBefore", "{bad}", "{units}"));
    all.put("ifNone", texts.of("scriptIfNone", "{units}"));
    all.put("rejectAt", texts.of("scriptRejectAt", "{bad}"));
    all.put("plants", texts.of("plants", "{n}"));
    all.put("onePlant", texts.of("plants", "1"));
    all.put("tooLong", texts.of("scriptTooLong"));
    all.put("stateWaiting", texts.of("scriptStateWaiting", "{time}"));
    all.put("stateTried", texts.of("scriptStateTried", "{time}", "{next}"));
    all.put("stateRefused", texts.of("scriptStateRefused"));
    all.put("stateForeign", texts.of("scriptStateForeign", "{person}"));
    all.put("stateSignIn", texts.of("scriptStateSignIn"));
    all.put("sent", texts.of("scriptSent", "{time}"));
    all.put("sentBefore", texts.of("scriptSentBefore", "{time}"));
    all.put("nothingSent", texts.of("scriptNothingSent"));
    all.put("mendIt", texts.of("scriptMendIt"));
    all.put("discard", texts.of("scriptDiscard"));
    all.put("discardSure", texts.of("scriptDiscardSure", "{title}"));
    all.put("position", texts.of("scriptPosition"));
    all.put("noPosition", texts.of("scriptNoPosition", "{reason}"));
    all.put("leaving", texts.of("scriptLeaving", "{n}"));
    all.put("undo", texts.of("undo"));
    all.put("undone", texts.of("scriptUndone", "{what}"));
    all.put("errorTitle", texts.of("errorTitle"));
    return all;
  }
}
