#pragma once

#include <QWidget>

class QLabel;
class QPushButton;
class QTableView;

namespace stillroom::ui {

class ImpactModel;
class LarderEdit;

// What a pending edit would do, before anybody accepts it; there only while one is pending.
class ImpactStrip : public QWidget {
    Q_OBJECT

  public:
    explicit ImpactStrip(QWidget* parent = nullptr);

    void setEdit(LarderEdit* edit);
    // What is typed and cannot be read, by the tables that hold it.
    void setUnread(const QStringList& sentences);
    // Of the page, in pixels: the table shows as many rows as that leaves it, two at least.
    void setMostHeight(int height);
    QTableView& table() { return *m_table; }
    QPushButton& acceptButton() { return *m_accept; }
    QPushButton& leaveButton() { return *m_leave; }
    ImpactModel& model() { return *m_model; }
    QString summary() const;
    QString doubts() const;

  protected:
    void changeEvent(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void refresh();
    QString found() const;
    void fit();
    void fitColumns();
    void dress();

    LarderEdit* m_edit = nullptr;
    QLabel* m_what;
    QLabel* m_summary;
    QLabel* m_doubts;
    ImpactModel* m_model;
    QTableView* m_table;
    QPushButton* m_accept;
    QPushButton* m_leave;
    QStringList m_unread;
    int m_mostHeight = 0; // 0: nobody said
};

} // namespace stillroom::ui
