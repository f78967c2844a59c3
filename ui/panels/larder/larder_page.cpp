#include "ui/panels/larder/larder_page.h"

#include "ui/panels/larder/entry_field.h"
#include "ui/panels/larder/entry_table.h"
#include "ui/panels/larder/impact_strip.h"
#include "ui/panels/larder/ingredient_sheet.h"
#include "ui/panels/larder/larder_list.h"
#include "ui/session/larder_edit.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"
#include "ui/widgets/cell_edit.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QItemSelectionModel>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QShortcut>
#include <QTableView>
#include <QVBoxLayout>

namespace stillroom::ui {

LarderPage::LarderPage(LarderEdit& edit, QWidget* parent)
    : QWidget(parent),
      m_edit(edit),
      m_list(new LarderList(this)),
      m_sheet(new IngredientSheet),
      m_scroll(new QScrollArea(this)),
      m_doubts(new Banner(this)),
      m_strip(new ImpactStrip(this)),
      m_empty(new QLabel(this)),
      m_divide(new QWidget(this)) {
    setAccessibleName(tr("Larder"));
    setWindowTitle(tr("Larder"));
    setProperty("keyHints", QStringList{QStringLiteral("/"), tr("filter"), QStringLiteral("Ins"), tr("new"),
                                        QStringLiteral("Del"), tr("bin"), QStringLiteral("F8"),
                                        tr("next doubt"), QStringLiteral("Ctrl Enter"), tr("accept"),
                                        QStringLiteral("Esc"), tr("leave the edit, the page")});
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    m_scroll->setWidget(m_sheet);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_scroll->viewport()->setBackgroundRole(QPalette::Base);
    m_scroll->viewport()->setAutoFillBackground(true);
    m_empty->setText(tr("Choose what is in hand on the left, or type “/” and part of its name.\n\nIts facts, "
                        "prices and stock stand here, with what every edit does to your drinks before you "
                        "accept it."));
    m_empty->setWordWrap(true);
    m_empty->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    m_divide->setAutoFillBackground(true);
    m_divide->setBackgroundRole(QPalette::Mid);
    m_divide->setFixedWidth(1);
    auto* right = new QVBoxLayout;
    right->setContentsMargins(0, 0, 0, 0);
    right->setSpacing(0);
    right->addWidget(m_empty, 1);
    right->addWidget(m_scroll, 1);
    right->addWidget(m_doubts);
    right->addWidget(m_strip);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(m_list);
    row->addWidget(m_divide);
    row->addLayout(right, 1);
    setFocusProxy(&m_list->table());

    connect(m_list, &LarderList::chosen, &m_edit, &LarderEdit::choose);
    connect(m_list, &LarderList::left, m_sheet, &IngredientSheet::focusFirst);
    connect(m_list, &LarderList::newAsked, this, [this] {
        // Of the kind in hand; without one, a thing of its own.
        const auto& at = m_edit.now();
        const bool kind = m_edit.hasChosen() && at.sort == larder::IngredientSort::Kind && !m_edit.isNew();
        m_edit.begin(kind ? larder::IngredientSort::Bottle : larder::IngredientSort::Kind,
                     kind ? std::optional(at.id) : std::nullopt);
        m_sheet->focusFirst();
    });
    connect(m_sheet, &IngredientSheet::acceptAsked, this, &LarderPage::accept);
    connect(m_sheet, &IngredientSheet::leaveAsked, this, &LarderPage::leave);
    connect(m_sheet, &IngredientSheet::drinkAsked, this, &LarderPage::drinkAsked);
    connect(m_sheet, &IngredientSheet::doubtsChanged, this, [this](const QString& doubts) {
        // The first sentence is the fact, the others what follows.
        const QString all = QString(doubts).replace(QLatin1Char('\n'), QLatin1Char(' '));
        const auto end = all.indexOf(QStringLiteral(". ")) + 1;
        m_doubts->show(BannerKind::Caution,
                       end > 0 ? BannerText{all.left(end), all.mid(end + 1), {}} : BannerText{all, {}, {}});
    });
    connect(m_sheet, &IngredientSheet::unreadChanged, m_strip, &ImpactStrip::setUnread);
    connect(&m_edit, &LarderEdit::chosenChanged, this, &LarderPage::showEmptiness);
    connect(&m_edit, &LarderEdit::accepted, this, [this](const QString& what) {
        m_list->reveal(m_edit.chosen());
        Q_EMIT said(tr("%1 is changed. Ctrl Z takes it back.").arg(what));
    });
    connect(&m_edit, &LarderEdit::said, this, &LarderPage::said);
    connect(&m_edit, &LarderEdit::refused, m_sheet, &IngredientSheet::refuse);
    connect(m_list, &LarderList::binAsked, &m_edit, &LarderEdit::bin);
    const auto key = [this](const QKeySequence& keys, auto slot) {
        auto* shortcut = new QShortcut(keys, this);
        shortcut->setContext(Qt::WidgetWithChildrenShortcut);
        connect(shortcut, &QShortcut::activated, this, slot);
    };
    key(QKeySequence(Qt::CTRL | Qt::Key_Return), [this] { accept(); });
    key(QKeySequence(Qt::CTRL | Qt::Key_Enter), [this] { accept(); });
    key(QKeySequence(Qt::Key_F8), [this] { toNextDoubt(); });
    key(QKeySequence(Qt::Key_Slash), [this] { m_list->focusFilter(); });
    // Where one works stays in sight: when the strip below grows, and when the keys walk a table.
    m_scroll->viewport()->installEventFilter(this);
    for (auto* table : {&m_sheet->facts(), &m_sheet->packs(), &m_sheet->lots(), &m_sheet->uses()})
        connect(table->selectionModel(), &QItemSelectionModel::currentChanged, this,
                &LarderPage::keepInSight);
    m_edit.refresh();
    m_list->setEdit(&m_edit);
    m_strip->setEdit(&m_edit);
    m_sheet->setEdit(&m_edit);
    showEmptiness();
    dress();
}

void LarderPage::open(base::IngredientId ingredient) {
    m_edit.choose(ingredient);
}

void LarderPage::accept() {
    // A field that is still open is read first, then waits for its effect to be seen.
    auto* focus = QApplication::focusWidget();
    if (auto* field = qobject_cast<EntryField*>(focus); field != nullptr && field->isModified()) {
        field->commit();
        return;
    }
    if (auto* cell = qobject_cast<CellEdit*>(focus)) {
        for (auto* at = cell->parentWidget(); at != nullptr; at = at->parentWidget())
            if (auto* table = qobject_cast<EntryTable*>(at)) table->setFocus(Qt::OtherFocusReason);
        return;
    }
    m_edit.accept();
}

void LarderPage::leave() {
    if (m_edit.isPending())
        m_edit.leave();
    else
        m_list->table().setFocus(Qt::OtherFocusReason);
}

void LarderPage::showEmptiness() {
    const bool chosen = m_edit.hasChosen();
    m_empty->setVisible(!chosen);
    m_scroll->setVisible(chosen);
    m_doubts->setVisible(chosen && !m_doubts->text().fact.isEmpty());
}

// Within what is in hand, then down the list.
void LarderPage::toNextDoubt() {
    if (m_sheet->toNextDoubt()) return;
    if (!m_list->toNextDoubt()) {
        Q_EMIT said(tr("Nothing further in this list is doubtful or missing."));
        return;
    }
    m_sheet->facts().clearFocus();
    m_sheet->toNextDoubt();
}

void LarderPage::keepInSight() {
    auto* focus = QApplication::focusWidget();
    if (focus == nullptr || !m_sheet->isAncestorOf(focus)) return;
    QRect box = focus->rect();
    for (auto* at = focus; at != nullptr && at != m_sheet; at = at->parentWidget()) // a cell's editor too
        if (auto* table = qobject_cast<EntryTable*>(at);
            table != nullptr && table->currentIndex().isValid()) {
            focus = table->viewport();
            box = table->visualRect(table->currentIndex());
        }
    const QRect inSheet(focus->mapTo(m_sheet, box.topLeft()), box.size());
    const int margin = Theme::current().pxInt(26); // a row more on either side
    m_scroll->ensureVisible(m_scroll->viewport()->width() / 2, inSheet.center().y(), 0,
                            inSheet.height() / 2 + margin);
}

bool LarderPage::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_scroll->viewport() && event->type() == QEvent::Resize)
        QMetaObject::invokeMethod(this, &LarderPage::keepInSight, Qt::QueuedConnection);
    return QWidget::eventFilter(watched, event);
}

void LarderPage::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        if (m_edit.hasChosen() && m_edit.isPending())
            m_edit.leave();
        else
            Q_EMIT closed();
        return;
    }
    QWidget::keyPressEvent(event);
}

void LarderPage::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    dress();
}

void LarderPage::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void LarderPage::dress() {
    const auto& theme = Theme::current();
    m_list->setFixedWidth(std::clamp(width() * 36 / 100, theme.pxInt(340), theme.pxInt(640)));
    m_strip->setMostHeight(height() * 45 / 100);
    m_empty->setContentsMargins(theme.pxInt(24), theme.pxInt(24), theme.pxInt(24), 0);
    m_empty->setFont(theme.font(Type::Body));
}

} // namespace stillroom::ui
