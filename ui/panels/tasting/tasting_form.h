#pragma once

#include "ui/panels/tasting/tasting_sheet.h"
#include "ui/text/words.h"

#include <QWidget>

class QComboBox;
class QDateTimeEdit;
class QFrame;
class QHBoxLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QSpacerItem;
class QVBoxLayout;

namespace stillroom::ui {

class Banner;
class NumberEdit;
class PhotoStrip;
class ProseEdit;
class ScaleEntry;
class VerdictKeys;
class WrapLabel;

// The entry of one tasting: who, when, how long in the glass, where; the book's scales; a note, a verdict,
// what to try next; what was measured. Tab goes through all of it in the order it stands. Enter takes the
// short way: from who to the scales, and from what to try next to saving; in the note it makes a new line.
class TastingForm : public QWidget {
    Q_OBJECT

  public:
    explicit TastingForm(QWidget* parent = nullptr);

    void setSheet(const TastingSheet& sheet); // clears the entry
    TastingInput input() const;
    void setInput(const TastingInput& input); // over an empty entry: what was written before
    void startEntry();                        // focus on the first thing that is not known
    void save();                              // asks for it, or says why not
    // Something that would be lost: a correction is, when it says something else than what it corrects.
    bool holdsUnsaved() const;
    bool isCorrecting() const { return m_amends.has_value(); }
    void showError(const QString& fact, const QString& consequence, const QString& act = {});

    ScaleEntry* scale(std::size_t index) const { return m_scales.at(index); }
    std::size_t scaleCount() const { return m_scales.size(); }
    Banner& banner() { return *m_banner; }
    PhotoStrip& photos() { return *m_photos; }
    QString measuredText() const; // what the measured values say
    // Photos that go with the entry when it is saved.
    void addPhotos(const std::vector<std::string>& photos, const std::vector<Sentence>& refused);
    void addPhotoFiles(const QStringList& paths);

  Q_SIGNALS:
    void saveRequested(const stillroom::ui::TastingInput& input);
    void focusMoved(QWidget* to);
    void correctionChanged();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    QWidget* makeTop();
    QWidget* makeNote();
    QWidget* makeMeasured();
    void makeScales(const std::vector<tasting::ScaleDefinition>& scales);
    void chain();
    void goOn(QWidget* from, int direction);
    void showPhotos();
    void sayMeasured();
    QString problem(QWidget** at) const;
    void dress();
    QLabel* caption(const QString& text, QWidget* buddy = nullptr);

    TastingSheet m_sheet;
    std::optional<base::TastingId> m_amends;
    std::optional<TastingInput> m_before; // what a correction started from
    bool m_whenTold = false;
    std::vector<QWidget*> m_order; // by Enter and the arrows
    std::vector<QLabel*> m_captions;
    std::vector<ScaleEntry*> m_scales;
    QComboBox* m_who;
    QDateTimeEdit* m_when;
    NumberEdit* m_age;
    QLineEdit* m_place;
    Banner* m_banner;
    QLabel* m_hint;
    QLabel* m_rings;
    QVBoxLayout* m_scaleRows;
    ProseEdit* m_note;
    QFrame* m_noteFrame;
    QSpacerItem* m_noteRoom;
    VerdictKeys* m_verdict;
    QLineEdit* m_tryNext;
    NumberEdit* m_volume;
    NumberEdit* m_weight;
    NumberEdit* m_temperature;
    NumberEdit* m_brix;
    WrapLabel* m_measured;
    PhotoStrip* m_photos;
    std::vector<std::string> m_photoBytes;
    QPushButton* m_addPhoto;
    QPushButton* m_save;
    QPushButton* m_leave;
    QVBoxLayout* m_column;
};

} // namespace stillroom::ui
