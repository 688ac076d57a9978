package org.rollwright.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.rollwright.desk.Books;
import org.rollwright.journal.Entry;
import org.rollwright.journal.Event;
import tools.jackson.databind.json.JsonMapper;

/// Words of fixed lists in a journal of another version: those we know, those we do not, and blanks. Each is read,
/// counts as it did, and is written again as it stood.
class EarlierWordsTest {
    @ParameterizedTest
    @ValueSource(
            strings = {
                "{'type':'cash-moved','move':{'day':'2026-03-01','from':'OUTSIDE','to':'CASH','amount':25.00,'where':'','what':'','currency':'USD'}}",
                "{'type':'cash-moved','move':{'day':'2026-03-01','from':'a safe','to':'','amount':25.00,'where':'','what':''}}",
                "{'type':'order-placed','order':{'number':7,'branch':'Quarry','denomination':{'country':'US','key':'cent'},'boxes':2,'placed':'2026-03-01','due':'2026-03-02','prepaid':true,'note':'','arrived':[]}}",
                "{'type':'order-placed','order':{'number':0,'branch':'Quarry','denomination':{'country':'US','key':'cent'},'boxes':2,'placed':'2026-03-01','due':'2026-03-02','prepaid':true,'note':'','arrived':[]}}",
                "{'type':'attributed','find':1,'variety':'cent-1943-d','verdict':'looks like something else','path':[{'looked':'a','answer':'yes'}],'note':''}",
                "{'type':'attributed','find':1,'variety':'','verdict':'unsure','path':[],'note':''}",
                "{'type':'attributed','find':1,'variety':'','verdict':'','path':[],'note':''}",
                "{'type':'metal-priced','price':{'metal':'copper','perKilogram':9.259415,'asTyped':'4.20 per lb','day':'2026-03-01'}}",
                "{'type':'metal-priced','price':{'metal':'Copper','perKilogram':9.259415,'asTyped':'4.20 per lb','day':'2026-03-01'}}",
                "{'type':'photo-kept','photo':'p','width':4,'height':3,'about':{'kind':'find','key':'7','part':0},'caption':''}",
                "{'type':'photo-kept','photo':'p','width':4,'height':3,'about':{'kind':'find','key':'','part':0},'caption':''}",
                "{'type':'photo-kept','photo':'p','width':4,'height':3,'about':{'kind':'shelf','key':'a','part':0},'caption':''}",
                "{'type':'photo-kept','photo':'p','width':4,'height':3,'about':{'kind':'','key':'','part':0},'caption':''}",
                "{'type':'coins-left','coins':[{'find':0,'piece':1}],'gone':{'how':'sold','price':2.50,'to':'','day':'2026-03-01'}}",
                "{'type':'coins-left','coins':[{'find':0,'piece':1}],'gone':{'how':'eaten','to':'','day':'2026-03-01'}}",
                "{'type':'coin-acquired','coin':{'find':0,'piece':1},'facts':{'identity':{'denomination':{'country':'US','key':'cent'},'year':1971,'mint':'D','kind':'','design':''},'strike':'BUSINESS','varieties':[],'errors':[],'note':'','photos':[]},'acquisition':{'how':'dug up','from':'','day':'2026-03-01'}}",
                "{'type':'branch-written','branch':{'bank':'Quarry','branch':'','gives':true,'takes':true,'open':['MONDAY'],'leadDays':3,'boxFee':0,'countPercent':0,'kilometres':6.5,'bearing':'NE','closed':false,'note':''}}",
                "{'type':'branch-written','branch':{'bank':'Quarry','branch':'','gives':true,'takes':true,'open':['MONDAY'],'leadDays':3,'boxFee':0,'countPercent':0,'kilometres':6.5,'bearing':'','closed':false,'note':''}}",
                "{'type':'branch-written','branch':{'bank':'Quarry','branch':'','gives':true,'takes':true,'open':['MONDAY'],'leadDays':3,'boxFee':0,'countPercent':0,'kilometres':6.5,'bearing':'ne','closed':false,'note':''}}",
                "{'type':'branch-written','branch':{'bank':'Quarry','branch':'','gives':true,'takes':true,'open':['MONDAY'],'leadDays':3,'boxFee':0,'countPercent':0,'kilometres':6.5,'bearing':'NNE','closed':false,'note':''}}",
                "{'type':'metal-priced','price':{'metal':'','perKilogram':9.259415,'asTyped':'4.20 per lb','day':'2026-03-01'}}"
            })
    void a_word_is_read_and_written_again_as_it_stood(String quoted) {
        String json = quoted.replace('\'', '"');
        Event event = EventJson.read(json);
        assertThat(new JsonMapper().readTree(EventJson.write(event))).isEqualTo(new JsonMapper().readTree(json));
        Books books = Books.EMPTY.apply(new Entry(1, Instant.EPOCH, 0, "", event));
        assertThat(books).isNotEqualTo(Books.EMPTY);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "'ne' is no direction.={'type':'branch-written','branch':{'bank':'Quarry','branch':'','gives':true,'takes':true,'open':['MONDAY'],'leadDays':3,'boxFee':0,'countPercent':0,'kilometres':6.5,'bearing':'ne','closed':false,'note':''}}",
                "'NNE' is no direction.={'type':'branch-written','branch':{'bank':'Quarry','branch':'','gives':true,'takes':true,'open':['MONDAY'],'leadDays':3,'boxFee':0,'countPercent':0,'kilometres':6.5,'bearing':'NNE','closed':false,'note':''}}",
                "'eaten' is no way to leave.={'type':'coins-left','coins':[{'find':0,'piece':1}],'gone':{'how':'eaten','to':'','day':'2026-03-01'}}",
            })
    void what_is_none_of_the_list_is_refused_when_it_is_new(String quoted) {
        String[] parts = quoted.split("=", 2);
        Entry entry = new Entry(1, Instant.EPOCH, 0, "", EventJson.read(parts[1].replace('\'', '"')));
        assertThat(Books.EMPTY.take(entry))
                .isInstanceOfSatisfying(
                        Books.Tried.Refused.class,
                        refused -> assertThat(refused.refusal().wrong()).isEqualTo(parts[0]));
    }
}
