#pragma once

#include "ui/session/draft_session.h"

#include <QObject>
#include <QPointer>

#include <map>
#include <vector>

namespace stillroom::ui {

// The revisions of the drink in hand and what tasters said of them, read once per kept revision or tasting
// and shared by the trail, the map and the pages that compare.
class DrinkHistory : public QObject {
    Q_OBJECT

  public:
    explicit DrinkHistory(QObject* parent = nullptr);

    void setDraft(DraftSession* draft);
    DraftSession* draft() const { return m_draft; }
    void reload();

    const std::vector<history::Revision>& revisions() const { return m_revisions; }
    const history::Revision* revision(base::RevisionId id) const;
    // The other drafts of the drink as they read today, those that say something of their own first. The one
    // in hand is not among them.
    struct OtherDraft {
        history::Draft draft;
        spec::Readings readings;
    };
    const std::vector<OtherDraft>& otherDrafts() const { return m_otherDrafts; }
    // How many of them differ from what they stand on: only these are marks of the trail.
    std::size_t triesAmongOthers() const { return m_tries; }
    // What changed from a revision's parent to it, facts included: worked out once.
    const QString& changed(base::RevisionId id) const;
    const std::vector<tasting::Tasting>& tastings(base::RevisionId id) const;
    // The first photo of it, else of a tasting of it, by its hash; empty: none.
    std::string photo(base::RevisionId id) const;
    QString initials(base::PersonId person) const;
    // This revision and the last few that led to it, oldest first: other branches are no part of its way.
    std::vector<history::Revision> wayTo(const std::optional<base::RevisionId>& id,
                                         std::size_t most = 6) const;
    // As it stands in the list; −1: not there.
    int indexOf(base::RevisionId id) const;
    // Why it was set aside; nullptr: it was not.
    const store::SetAside* setAside(base::RevisionId id) const;

  Q_SIGNALS:
    void reloaded();

  private:
    QPointer<DraftSession> m_draft;
    void readChanges();
    void readPhotos();
    void readDrafts();

    std::vector<history::Revision> m_revisions;
    std::map<base::RevisionId, int> m_places;
    std::map<base::RevisionId, QString> m_changed;
    std::map<std::string, std::optional<larder::FactState>> m_states; // of this drink, by hash
    std::vector<OtherDraft> m_otherDrafts;
    std::size_t m_tries = 0;
    std::map<base::RevisionId, std::vector<tasting::Tasting>> m_tastings;
    std::map<base::RevisionId, std::string> m_photos;
    std::map<base::PersonId, QString> m_initials;
    std::map<base::RevisionId, store::SetAside> m_setAside;
};

} // namespace stillroom::ui
