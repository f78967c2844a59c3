#pragma once

#include "core/physics/measured_dilution.h"
#include "ui/session/draft_session.h"

#include <QPointer>
#include <QWidget>

#include <functional>

class QGridLayout;
class QLabel;

namespace stillroom::ui {

class ProseEdit;

// Method, glass, finish and notes, written as sentences and understood as they are typed.
class SpecFields : public QWidget {
    Q_OBJECT

  public:
    explicit SpecFields(QWidget* parent = nullptr);

    void setSession(DraftSession* session);
    void showRevision(const history::Revision* revision);
    ProseEdit& method() { return *m_method; }
    ProseEdit& glass() { return *m_glass; }
    ProseEdit& garnish() { return *m_garnish; }
    ProseEdit& serves() { return *m_serves; }
    ProseEdit& partTarget() { return *m_partTarget; }
    ProseEdit& notes() { return *m_notes; }

  protected:
    void changeEvent(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    ProseEdit* addField(int row, const QString& caption, const QString& name, const QString& invite);
    void refresh();
    void dress();
    void edit(const QString& label, const std::function<void(spec::Spec&)>& change);
    void writeServes(const QString& text);
    void writePartTarget(const QString& text);

    QPointer<DraftSession> m_session;
    std::optional<history::Revision> m_revision;
    QGridLayout* m_grid;
    std::vector<QLabel*> m_captions;
    ProseEdit* m_method;
    QLabel* m_dilution;
    ProseEdit* m_glass;
    ProseEdit* m_garnish;
    ProseEdit* m_serves;
    ProseEdit* m_partTarget; // shown for a spec in parts
    ProseEdit* m_notes;
    int m_mergeKey = DraftSession::kNoMerge;
};

// "adds water, 53.5 % of the start. Predicted, ×1.08 by 3 measured at this bench; nobody has weighed this one
// yet." `bench` is what moved the prediction.
QString dilutionInWords(const spec::Spec& spec, const spec::Readings& readings,
                        const std::optional<physics::Calibration>& bench);

} // namespace stillroom::ui
