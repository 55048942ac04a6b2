package org.kornspur.api.page;

import io.quarkus.qute.i18n.Message;
import io.quarkus.qute.i18n.MessageBundle;

/** Texts of the page where a person signs, and of what was signed. */
@MessageBundle("sign")
public interface SignMessages {

  @Message("Sign for lot {id}")
  String title(String id);

  @Message("What you sign")
  String what();

  @Message("The standing as recorded")
  String standing();

  @Message("Every verdict")
  String verdicts();

  @Message("The sealed text, word for word")
  String sealedText();

  @Message("Seal (SHA-256 of the text)")
  String seal();

  @Message("Which act")
  String act();

  @Message("cannot be signed now")
  String notNow();

  @Message("Two persons must sign")
  String twoPersons();

  @Message("Lower category (only to put it into a lower one)")
  String toCategory();

  @Message("Ground (only to condemn)")
  String ground();

  @Message("The seed itself is unfit; reaches lots of the same harvest")
  String groundSeedQuality();

  @Message("It is not pure or not what it is called; reaches every descendant")
  String groundPurityOrIdentity();

  @Message("Condemnation that was a mistake (only to suspend a condemned lot)")
  String corrects();

  @Message("Reason")
  String reason();

  @Message("Meaning of your signature, such as: responsibility for the release")
  String meaning();

  @Message("Your password, again")
  String password();

  @Message("Sign")
  String sign();

  @Message("Not signed")
  String notSigned();

  @Message("Release")
  String release();

  @Message("Sign for this lot: release, suspend, condemn, put into a lower category")
  String toSign();

  @Message("since {time}")
  String since(String time);

  @Message("Nobody has signed for this lot.")
  String nobody();

  @Message("Signed by {name} ({person}) on {time}, meaning: {meaning}. Reason: {reason}")
  String signed(String name, String person, String time, String meaning, String reason);

  @Message("name forgotten")
  String nameForgotten();

  @Message("Refused to {person} on {time}")
  String refused(String person, String time);

  @Message("The signature verifies.")
  String verifies();

  @Message("The signature does not verify. Tell the administrator and the certification authority.")
  String doesNotVerify();

  @Message("The lot still is exactly what was sealed.")
  String stillSealed();

  @Message("The lot is no longer what was sealed.")
  String notSealed();
}
