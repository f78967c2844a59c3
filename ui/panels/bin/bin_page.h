#pragma once

#include "ui/panels/bin/bin_rows.h"

#include <QWidget>

#include <functional>

class QLabel;
class QListWidget;
class QPushButton;
class QHBoxLayout;
class QVBoxLayout;

namespace stillroom::ui {

class Banner;

// What was put in the bin: brought back one by one, or emptied, which is asked first.
class BinPage : public QWidget {
    Q_OBJECT

  public:
    using Attempt = std::function<bool(const std::function<void()>&)>;
    BinPage(WorkbookSession& book, Attempt attempt, QWidget* parent = nullptr);

    QListWidget& list() { return *m_list; }
    QPushButton& back() { return *m_back; }
    QPushButton& empty() { return *m_empty; }
    const Banner& banner() const { return *m_banner; }
    QString told() const;
    // What the last emptying did; shown until the page is left.
    void tellEmptied(const store::EmptiedBin& emptied);

  Q_SIGNALS:
    void closed();
    void said(const QString& what);
    void emptyAsked(const QString& what); // "2 drinks, 1 draft"

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;
    bool eventFilter(QObject* object, QEvent* event) override;

  private:
    void reload();
    void bringBackCurrent();
    void dress();

    WorkbookSession& m_book;
    Attempt m_attempt;
    std::vector<BinRow> m_rows;
    std::vector<PickRow> m_shown;
    QLabel *m_title, *m_about, *m_nothing;
    Banner* m_banner;
    QPushButton *m_back, *m_empty;
    QListWidget* m_list;
    QHBoxLayout* m_head;
    QVBoxLayout* m_body;
};

} // namespace stillroom::ui
