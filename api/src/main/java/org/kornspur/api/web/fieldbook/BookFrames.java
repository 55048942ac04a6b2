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

  BookMessages texts() {
    return framing.texts(BookMessages.class);
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
  private static Map<String, String> scriptTexts(BookMessages texts) {
    Map<String, String> all = new TreeMap<>();
    all.put("waiting", texts.scriptWaiting("{n}"));
    all.put("nothingWaiting", texts.scriptNothingWaiting());
    all.put("noNetwork", texts.scriptNoNetwork());
    all.put("signIn", texts.scriptSignIn());
    all.put("otherPerson", texts.scriptOtherPerson("{person}"));
    all.put("draft", texts.scriptDraft("{time}"));
    all.put("kept", texts.scriptKept("{time}"));
    all.put("notKept", texts.scriptNotKept());
    all.put("keepable", texts.scriptKeepable("{n}"));
    all.put("insecure", texts.scriptInsecure());
    all.put("noStorage", texts.scriptNoStorage());
    all.put("areaOrPlants", texts.areaOrPlants());
    all.put("required", texts.required());
    all.put("notANumber", texts.notANumber("{value}"));
    all.put("notWhole", texts.notWhole("{value}"));
    all.put("notATime", texts.notATime("{value}"));
    all.put("notACorner", texts.notACorner("{value}"));
    all.put("tooSmall", texts.tooSmall("{value}", "{limit}"));
    all.put("tooLarge", texts.tooLarge("{value}", "{limit}"));
    all.put("moreThanWhole", texts.moreThanWhole("{value}", "{whole}", "{limit}"));
    all.put("mend", texts.mend("{n}"));
    all.put("goOn", texts.decisionGoOn());
    all.put("accept", texts.decisionAccept());
    all.put("reject", texts.decisionReject());
    all.put("found", texts.scriptFound("{bad}", "{units}"));
    all.put("foundBefore", texts.scriptFoundBefore("{bad}", "{units}"));
    all.put("ifNone", texts.scriptIfNone("{units}"));
    all.put("rejectAt", texts.scriptRejectAt("{bad}"));
    all.put("plants", texts.plants("{n}"));
    all.put("onePlant", texts.plants("1"));
    all.put("tooLong", texts.scriptTooLong());
    all.put("stateWaiting", texts.scriptStateWaiting("{time}"));
    all.put("stateTried", texts.scriptStateTried("{time}", "{next}"));
    all.put("stateRefused", texts.scriptStateRefused());
    all.put("stateForeign", texts.scriptStateForeign("{person}"));
    all.put("stateSignIn", texts.scriptStateSignIn());
    all.put("sent", texts.scriptSent("{time}"));
    all.put("sentBefore", texts.scriptSentBefore("{time}"));
    all.put("nothingSent", texts.scriptNothingSent());
    all.put("mendIt", texts.scriptMendIt());
    all.put("discard", texts.scriptDiscard());
    all.put("discardSure", texts.scriptDiscardSure("{title}"));
    all.put("position", texts.scriptPosition());
    all.put("noPosition", texts.scriptNoPosition("{reason}"));
    all.put("leaving", texts.scriptLeaving("{n}"));
    all.put("undo", texts.undo());
    all.put("undone", texts.scriptUndone("{what}"));
    all.put("errorTitle", texts.errorTitle());
    return all;
  }
}
