#pragma once

#include "core/tasting/scales.h"

#include <QDialog>

#include <vector>

class QComboBox;
class QFrame;
class QLabel;
class QLineEdit;
class QPushButton;
class QScrollArea;
class QVBoxLayout;

namespace stillroom::ui {

// The book's own scales: names, kinds and their order. A name changed keeps what was scored under it; a
// scale taken out stays on the tastings that have it.
class ScalesDialog : public QDialog {
    Q_OBJECT

  public:
    explicit ScalesDialog(const tasting::ScaleSet& scales, QWidget* parent = nullptr);

    tasting::ScaleSet scales() const; // as it stands; a row without a name is none
    QLineEdit& name(std::size_t row) { return *m_rows.at(row).name; }
    QComboBox& kind(std::size_t row) { return *m_rows.at(row).kind; }
    std::size_t rowCount() const { return m_rows.size(); }
    QString note() const; // why it cannot be saved; empty when it can

  Q_SIGNALS:
    void saveAsked(const stillroom::tasting::ScaleSet& scales);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    struct Row {
        std::string id; // empty: new
        QWidget* box;
        QLineEdit* name;
        QComboBox* kind;
    };
    void addRow(const tasting::ScaleDefinition& scale);
    void removeRow(std::size_t row);
    void moveRow(std::size_t row, int by);
    void show(const tasting::ScaleSet& scales);
    std::size_t rowOf(const QObject* field) const;
    void tie(); // tab order, and an empty last row to write a new one into
    void check();

    std::vector<Row> m_rows;
    QVBoxLayout* m_list;
    QScrollArea* m_scroll;
    QLabel* m_note;
    QPushButton* m_usual;
    QPushButton* m_save;
};

} // namespace stillroom::ui
