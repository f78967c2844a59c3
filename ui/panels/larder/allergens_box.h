#pragma once

#include <QWidget>

#include <vector>

class QCheckBox;
class QGridLayout;
class QLabel;

namespace stillroom::ui {

class LarderEdit;

// The fourteen, each said or not, and before them all whether anybody has said anything: what nobody said is
// unknown, never none.
class AllergensBox : public QWidget {
    Q_OBJECT

  public:
    explicit AllergensBox(QWidget* parent = nullptr);

    void setEdit(LarderEdit* edit);
    QString sentence() const;
    QCheckBox& stated() { return *m_stated; }
    QCheckBox* box(const QString& id) const; // nullptr: not on the list

  protected:
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void fill();
    void take();
    void layOut();
    void dress();

    LarderEdit* m_edit = nullptr;
    bool m_filling = false;
    int m_columns = 0;
    QLabel* m_sentence;
    QCheckBox* m_stated;
    QGridLayout* m_grid;
    std::vector<QCheckBox*> m_boxes; // in the order of the Annex
};

} // namespace stillroom::ui
