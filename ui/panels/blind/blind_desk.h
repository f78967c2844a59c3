#pragma once

#include "core/store/panels_of_book.h"
#include "core/tasting/panel_plan.h"
#include "core/tasting/panel_texts.h"
#include "core/tasting/tasting.h"
#include "ui/panels/blind/sample_name.h"

#include <QObject>
#include <QString>
#include <QStringList>

#include <optional>
#include <vector>

namespace stillroom::ui {

class Desk;

// What is being planned, before it is dealt.
struct BlindWish {
    QString name; // empty: the usual one
    tasting::PanelKind kind = tasting::PanelKind::Triangle;
    QString attribute;
    std::vector<base::RevisionId> products;
    std::vector<base::PersonId> tasters; // in the order they were ticked
    bool foretold = false;               // the first listed has more; or the order as it is listed
    double alpha = 0.05;
    std::optional<double> share; // of people thought able to tell
    QString seed;                // empty: drawn by chance
};

// One session with everything there is to know of it; what may be shown of it depends on its state.
struct BlindSession {
    store::PanelSummary summary;
    tasting::Panel panel;
    tasting::PanelNames names;
    std::vector<SampleName> samples; // of the products
};

// The blind sessions of the open book, and the one being planned. Outlives the page, so that a plan half made
// stands when one comes back to it; gone with the book. Every write is in the book when it returns.
class BlindDesk : public QObject {
    Q_OBJECT

  public:
    explicit BlindDesk(Desk& desk, QObject* parent = nullptr);

    Desk& desk() { return m_desk; }
    bool isWritable() const;
    const std::vector<store::PanelSummary>& sessions() const { return m_sessions; }
    bool reload(); // false: the book could not be read
    std::optional<BlindSession> session(base::PanelId id);

    BlindWish& wish() { return m_wish; }
    void startWish(); // two revisions of the drink in hand, where there are two; the tasters of last time
    std::optional<QString> problem() const; // what the wish still lacks, at once
    // What the wish can show, or what it still lacks.
    tl::expected<tasting::PanelPlan, QString> plan() const;
    // Deals the cups. The error is for a person.
    tl::expected<base::PanelId, QString> deal();
    QString usualName() const; // "Triangle, 25 Nov"

    // What changed between two revisions of one drink, and whether a finding can be laid to it; empty for
    // anything else.
    QString whatDiffers(const std::vector<base::RevisionId>& products);
    std::vector<tasting::Person> people();
    std::optional<base::PersonId> addPerson(const QString& name);
    SampleName sampleName(base::RevisionId revision);
    QString productName(base::RevisionId revision); // "Ox Skerry r4"

    bool startPouring(base::PanelId panel);
    bool answer(base::PanelId panel, base::PersonId taster, const tasting::Answer& answer);
    bool close(base::PanelId panel);
    bool rename(base::PanelId panel, const QString& name);
    bool bin(base::PanelId panel, bool binned);
    QString whenText(const base::Instant& instant) const; // "25 Nov, 21:14"

  Q_SIGNALS:
    void sessionsChanged();

  private:
    bool write(const std::function<tl::expected<void, tasting::PanelError>()>& step);

    Desk& m_desk;
    std::vector<store::PanelSummary> m_sessions;
    BlindWish m_wish;
    bool m_started = false;
};

bool asksAttribute(tasting::PanelKind kind); // "sweetness"
// "pouring, 8 of 12 in"
QString stateWords(const store::PanelSummary& summary);
QString personName(const tasting::Person& person); // the initials where there is no name

} // namespace stillroom::ui
