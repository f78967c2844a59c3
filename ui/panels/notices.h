#pragma once

#include "ui/session/draft_session.h"
#include "ui/theme/banner.h"

#include <QWidget>

#include <vector>

class QLabel;
class QVBoxLayout;

namespace stillroom::ui {

// What a notice asks for, when it asks for something that can be done here.
enum class NoticeAct : unsigned char {
    None,
    EnterFacts,
    ChooseIngredient,
    HouseMeasures,
    Method,
    Glass,
    PartTarget,
    Amount
};

struct Notice {
    BannerKind kind = BannerKind::Gap;
    BannerText text;
    NoticeAct act = NoticeAct::None;
    int line = -1;  // the first line it is about
    QString source; // of a caution
};

// Finished words for a draft: what is missing and what may hurt, the most dangerous first.
std::vector<Notice> noticesOf(const DraftReading& now);
// What is missing but moves no reading people watch first: one paragraph.
QString quietGaps(const DraftReading& now);
QString allergensInWords(const DraftReading& now);
QString sourcesOf(const DraftReading& now,
                  spec::Severity severity); // of the cautions of one severity, a line each
QString standingCautions(const DraftReading& now);

// Banners under the sheet, then allergens, then the standing notes once.
class Notices : public QWidget {
    Q_OBJECT

  public:
    explicit Notices(QWidget* parent = nullptr);
    void show(const DraftReading& now);
    using QWidget::show;
    const std::vector<Notice>& shown() const { return m_shown; }

  Q_SIGNALS:
    void actTriggered(stillroom::ui::NoticeAct act, int line);

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void dress();

    QVBoxLayout* m_banners;
    std::vector<Banner*> m_pool;
    std::vector<Notice> m_shown;
    QLabel* m_quiet;
    QLabel* m_allergens;
    QLabel* m_standing;
};

} // namespace stillroom::ui
