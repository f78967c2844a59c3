#pragma once

#include "ui/session/draft_session.h"

#include <QPointer>
#include <QWidget>

namespace stillroom::ui {

class ChoiceTabs;
class WrapLabel;

// The ratio of a syrup with what its parts are measured by, what the other basis would come to, and the
// choice between the two: one edit of the draft. Hidden where there is no ratio.
class RatioRow : public QWidget {
    Q_OBJECT

  public:
    explicit RatioRow(QWidget* parent = nullptr);

    // `fixed`: only to be read.
    void show(DraftSession* session, const DraftReading& now, const spec::Bindings& bindings, bool fixed);
    ChoiceTabs& basis() { return *m_basis; }
    QString sentence() const;

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void choose(int tab);
    void dress();

    QPointer<DraftSession> m_session;
    WrapLabel* m_sentence;
    ChoiceTabs* m_basis;
};

} // namespace stillroom::ui
