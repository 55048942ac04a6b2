package org.kornspur.api.command.notification;

import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.contract.NotificationKind;
import org.kornspur.ingest.contract.Subject;

/** Who is told something, and what they may see at this moment. */
record Receiver(Caller caller, Visibility visibility) {

  boolean mayHearOf(NotificationKind kind) {
    return Permission.toHearOf(kind).filter(caller::may).isPresent();
  }

  /** Whether a crop or lot has a page that is the receiver's. */
  boolean sees(Subject subject) {
    boolean mayRead =
        switch (subject.kind()) {
          case LOT -> caller.may(Permission.READ_LOTS);
          case CROP -> caller.may(Permission.READ_CROPS);
          case SOURCE, HYBRID, ENTERPRISE -> false;
        };
    return mayRead && visibility.sees(subject);
  }
}
